// What to do today, and homework, in words.

#include "report/some_weeks.hpp"
#include "report/unbroken.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"

using namespace compline;
using namespace compline::tests;
using history::Task;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string today(const history::Thing& thing, const std::string& player = "") {
    return unbroken(report::next_text({thing}, asked_by(player)));
}

}  // namespace

TEST_CASE("what to do today reads as the golden file does", "[report][golden]") {
    const auto text = report::next_text(
        {homework_thing("Anna"), place_thing(Task::two_bars), due_thing()}, asked_by("Anna"));
    check_golden(text, "report/golden/next.txt");
    check_width(text);
}

TEST_CASE("a place is worked on in another way each time, and the line does it", "[report]") {
    CHECK(has(today(place_thing(Task::ladder)),
              "1 Lantern Street, bars 6-9, from 108 up to 132 bpm Bar 7, Am7♭5 → D7: late in 9 of "
              "14, 84 ms on average, no change to be seen. compline practice lantern-street.yaml "
              "--bars 6-9 --ladder 108-132"));
    CHECK(has(today(place_thing(Task::two_bars)),
              "no better for 4 evenings: so today two bars alone. compline practice "
              "lantern-street.yaml --bars 6-7 --tempo 108 --times 8"));
    CHECK(has(today(place_thing(Task::slower)), "so today a fifth slower."));
    CHECK(has(today(place_thing(Task::other_grips)),
              "so today other grips: choose among these, then play them. compline plan "
              "lantern-street.yaml --bars 6-9 --alternatives 3 compline practice"));
}

TEST_CASE("two chords that are weak in several tunes are drilled alone", "[report]") {
    CHECK(has(today(transition_thing(), "Anna"),
              "1 Am7♭5 → D7 and back, 8 times at 104 bpm In time and right in 18 of 40: weak in "
              "Lantern Street and Blue Kettle on the Back Stairs. So today these two chords alone. "
              "compline practice --changes 'Am7b5 | D7 | Am7b5 | D7' --tempo 104"));
}

TEST_CASE("homework that is not clean on any day yet says so", "[report]") {
    auto thing = homework_thing("Anna");
    CHECK(has(today(thing), "Given on 3 November; clean at 120 on 1 of 2 days."));
    thing.days_done = 0;
    CHECK(has(today(thing), "Given on 3 November; not clean at 120 yet."));
    CHECK(has(unbroken(report::homework_text({{homework_of(""), {}}}, {}, asked_by(""))),
              "96 to 120 bpm: not clean at 120 yet, given on 3 November"));
}

TEST_CASE("a tune that is due says since when it was not played", "[report]") {
    CHECK(has(today(due_thing()),
              "1 Blue Kettle on the Back Stairs, the whole tune, once at 120 bpm You have not "
              "played it since 3 November. It was due again on 4 November. Its chart is not at "
              "/lost/kettle.yaml any more: put the file of Blue Kettle on the Back Stairs in place "
              "of CHART. compline practice CHART --tempo 120 --times 1"));
    auto thing = whole_thing();
    CHECK(has(today(thing),
              "To end with, Lantern Street, the whole tune, once at 132 bpm You last "
              "played it on Tuesday."));
    thing.last_played = a_monday;
    CHECK(has(today(thing), "You played it today."));
    thing.last_played.clear();
    CHECK(has(today(thing), "You have not played all of it yet."));
}

TEST_CASE("where a chart is gone is said once", "[report]") {
    const auto text = unbroken(report::next_text({due_thing(), due_thing()}, asked_by("")));
    const auto first = text.find("Its chart is not at");
    REQUIRE(first != std::string::npos);
    CHECK(text.find("Its chart is not at", first + 1) == std::string::npos);
    CHECK(has(text.substr(first), "2 Blue Kettle"));
}

TEST_CASE("a place that is stuck for ever is not counted out", "[report]") {
    auto thing = place_thing(Task::slower);
    thing.place->stuck_for = 20;
    CHECK(has(today(thing), "no better for 20 evenings: so today"));
    thing.place->stuck_for = 21;
    CHECK(has(today(thing), "no better for a long time: so today"));
    thing.place->stuck_for = 2;
    CHECK(has(today(thing), "no change to be seen: so today"));
}

TEST_CASE("whoever has played nothing yet is told what to type first", "[report]") {
    auto first = thing_of(history::ThingKind::first_take);
    first.tune = {};
    const auto text = today(first);
    CHECK(has(text, "Nothing was played yet that could be judged."));
    CHECK(has(text, "compline practice CHART --times 1 compline new mine"));
    CHECK_FALSE(has(text, "Its chart"));
    CHECK(report::next_text({}, asked_by("")) ==
          "Nothing is weak and nothing is due today: play what you like.\n");
}

TEST_CASE("a drill is suggested with the changes that were typed", "[report]") {
    auto thing = place_thing(Task::ladder);
    thing.tune = two_five();
    CHECK(has(today(thing), "compline practice --changes 'Dm7 | G7 | Cmaj7' --bars 6-9"));
}

TEST_CASE("a sheet of homework reads as the golden file does", "[report][golden]") {
    const auto text = report::homework_text(
        {homework_of("Anna"), lantern_form(), {}, report::Hand::right, true}, asked_by("Anna"));
    check_golden(text, "report/golden/homework.txt");
    check_width(text);
}

TEST_CASE("homework that had been given before is kept once, and says so", "[report]") {
    const report::HomeworkSheet again{
        homework_of(""), lantern_form(), {}, report::Hand::right, false};
    CHECK(has(report::homework_text(again, asked_by("")),
              "Homework, given on 3 November: it was kept already"));
}

TEST_CASE("of a long passage one clean time through is enough", "[report]") {
    auto homework = homework_of("");
    CHECK(has(unbroken(report::homework_text(
                  {homework, lantern_form(), {}, report::Hand::right, true}, asked_by(""))),
              "It is clean at 120 bpm, two times through in a row, on two days."));
    const auto long_tune =
        chart::unroll(chart::read_chart("title: Long\nkey: C\ntempo: 120\nform: [A x6]\nsections:\n"
                                        "  A: C6 | G7 | C6 | G7\n",
                                        "long.yaml"));
    homework.from_bar = 1;
    homework.to_bar = 24;
    const auto text = unbroken(
        report::homework_text({homework, long_tune, {}, report::Hand::right, true}, asked_by("")));
    CHECK(has(text, "It is clean at 120 bpm, once through, on two days."));
    CHECK(has(text, "A time through that is clean and it goes 4 % faster"));
}

TEST_CASE("homework in a list says how far it is and what to type", "[report]") {
    const auto text = report::homework_text(some_homework("Anna"), {"Ben", ""}, asked_by("Anna"));
    check_width(text);
    CHECK(has(text, "Homework for Anna\n"));
    CHECK(has(unbroken(text),
              "bars 9-12 of Lantern Street, 96 to 120 bpm: clean at 120 on 1 of 2 days, given on "
              "3 November compline practice lantern-street.yaml --bars 9-12 --ladder 96-120"));
    CHECK(has(unbroken(text),
              "bar 7 of Lantern Street, 96 to 120 bpm: done on Wednesday, given on "
              "3 November bars 1-2"));
    CHECK(has(text, "\nAlso for Ben and somebody without a name (--no-settings): --player NAME\n"));
    CHECK(has(report::homework_text({}, {}, asked_by("")),
              "compline homework CHART --bars 9-12 --ladder 96-120\n"));
}
