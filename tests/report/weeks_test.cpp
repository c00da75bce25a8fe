// What weeks of practice came to, in words: read as a teacher would read it.

#include "report/some_weeks.hpp"
#include "report/unbroken.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"

using namespace compline;
using namespace compline::tests;
using history::Course;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string told(const report::TuneWeeks& weeks) {
    return unbroken(report::tune_text(weeks, {}, asked_by("")));
}

}  // namespace

TEST_CASE("the history of all tunes reads as the golden file does", "[report][golden]") {
    const auto text = report::weeks_text(all_weeks("Anna"), asked_by("Anna"));
    check_golden(text, "report/golden/weeks.txt");
    check_width(text);
}

TEST_CASE("the history of a tune reads as the golden file does", "[report][golden]") {
    const auto text = report::tune_text(better_weeks(), {some_homework("").front()}, asked_by(""));
    check_golden(text, "report/golden/weeks-of-a-tune.txt");
    check_width(text);
}

TEST_CASE("whether it gets better is said only where evenings are enough", "[report]") {
    auto weeks = better_weeks();
    CHECK(has(told(weeks), "Changes in time: 71 % four weeks ago, 88 % now: better."));
    weeks.story.trend.course = Course::none;
    CHECK(has(told(weeks),
              "71 % four weeks ago, 88 % now: too uneven from evening to evening to "
              "call it a change."));
    weeks.story.then_and_now->now_share = 0.75;
    CHECK(has(told(weeks), "71 % four weeks ago, 75 % now: no change to be seen."));
    weeks.story.then_and_now->now_share = 0.88;
    weeks.story.trend.course = Course::worse;
    CHECK(has(told(weeks), "71 % four weeks ago, 88 % now: worse."));
    weeks.story.trend = trend(Course::too_few, 5);
    CHECK(has(told(weeks), "5 evenings: too few to tell whether it gets better."));
    CHECK_FALSE(has(told(weeks), "four weeks ago,"));
    weeks.story.trend = trend(Course::too_few, 1);
    CHECK(has(told(weeks), "1 evening: too few to tell"));
}

TEST_CASE("a share that fell as the tempo rose is told with both tempi", "[report]") {
    auto weeks = better_weeks();
    weeks.story.trend.course = Course::worse;
    weeks.story.then_and_now->then_bpm = 96;
    weeks.story.then_and_now->now_bpm = 132;
    CHECK(has(told(weeks), "71 % four weeks ago at 96 bpm, 88 % now at 132: worse."));
}

TEST_CASE("a tune that was not played for weeks has no now", "[report]") {
    auto weeks = better_weeks();
    weeks.story.then_and_now->now_to = "2026-10-20";
    weeks.story.then_and_now->then_from = weeks.story.then_and_now->then_to = "2026-09-22";
    CHECK(has(told(weeks), "71 % two months ago, 88 % on 20 October: better."));
}

TEST_CASE("who plays faster is told so beside what became of the time", "[report]") {
    auto weeks = better_weeks();
    auto& story = weeks.story;
    story.then_and_now->then_bpm = 104;
    story.tempo_trend.course = history::Course::better;
    CHECK(has(told(weeks), "71 % four weeks ago at 104 bpm, 88 % now at 122: better, and faster."));
    story.trend.course = history::Course::none;
    CHECK(has(told(weeks), "now at 122: as much in time, and faster."));
    story.trend.course = history::Course::worse;
    story.then_and_now->then_share = 0.95;
    CHECK(has(told(weeks), "now at 122: worse, but faster."));
    story.by_whole_tunes = true;
    CHECK(has(told(weeks), "Changes in time in the whole tune: 95 % four weeks ago"));
}

TEST_CASE("tempi that nobody tells apart stand in one line, the whole tune beside bars of it",
          "[report]") {
    const auto text = report::tune_text(better_weeks(), {}, asked_by(""));
    CHECK(has(text,
              " 96-100 bpm                    -          97 % of 320         98 %     12 of 14"));
    CHECK(has(text, "120 bpm          83 % of 900          93 % of 140         95 %     22 of 40"));
    CHECK(has(text, "132 bpm           91 % of 64                    -         94 %       2 of 3"));
}

TEST_CASE("tones of a tune that was heard by sound are not known", "[report]") {
    auto weeks = better_weeks();
    weeks.sound_lately = weeks.sound_ever = true;
    const auto text = report::tune_text(weeks, {}, asked_by(""));
    CHECK_FALSE(has(text, "Right tones"));
    CHECK(has(unbroken(text), "Heard by sound, so tones are not known."));
    CHECK(has(text, "97 % of 320            -     12 of 14"));
}

TEST_CASE("a clean tempo is said with the one of four weeks earlier", "[report]") {
    auto weeks = better_weeks();
    CHECK(has(told(weeks), "Clean at 132 bpm since Tuesday, four weeks earlier at 120."));
    weeks.story.clean->before.reset();
    CHECK(has(told(weeks), "Clean at 132 bpm since Tuesday. "));
    weeks.story.clean.reset();
    CHECK(has(told(weeks), "The whole tune is not clean yet."));
}

TEST_CASE("a tune that is due again is said to be, and one that was", "[report]") {
    auto weeks = better_weeks();
    CHECK(has(told(weeks), "The whole tune is due again on 3 December."));
    weeks.story.due = "2026-11-24";
    CHECK(has(told(weeks), "The whole tune was due again on Tuesday."));
    weeks.story.due = a_monday;
    CHECK(has(told(weeks), "The whole tune is due again today."));
}

TEST_CASE("a line to loop the weakest bar stays within the form", "[report]") {
    auto weeks = better_weeks();
    CHECK(has(told(weeks), "--bars 6-9 --ladder 110-122"));
    weeks.story.weakest.front().bar = 1;
    CHECK(has(told(weeks), "Next bar 1: compline practice lantern-street.yaml --bars 1-3"));
    weeks.story.weakest.front().bar = 32;
    CHECK(has(told(weeks), "--bars 31-32"));
    weeks.story.weakest.front().bar = 34;  // of the coda
    CHECK(has(told(weeks), "--bars 34-34"));
}

TEST_CASE("a tune whose chart is gone says where it was and what to put in its place", "[report]") {
    auto weeks = better_weeks();
    weeks.story.tune.chart_file = "/lost/lantern.yaml";
    CHECK(has(told(weeks),
              "Its chart is not at /lost/lantern.yaml any more: put the file of "
              "Lantern Street in place of CHART. compline practice CHART --bars 6-9"));
    weeks.story.tune.chart_file.clear();
    CHECK(has(told(weeks), "Where its chart is, is not known"));
}

TEST_CASE("lines to type are for the player who was named", "[report]") {
    const auto text = report::tune_text(better_weeks(), {}, asked_by("Anna Lund"));
    CHECK(has(unbroken(text), "--player 'Anna Lund'"));
    auto asked = asked_by("Anna Lund");
    asked.name_player = false;
    CHECK_FALSE(has(report::tune_text(better_weeks(), {}, asked), "--player"));
}

TEST_CASE("a title or a name that could steer a terminal is written out", "[report]") {
    auto weeks = better_weeks();
    weeks.story.tune.title = "Lamp\x1B[2J";
    weeks.story.tune.chart_file = "/charts/\x1B[2J.yaml";
    report::AllWeeks all;
    all.tunes = {weeks};
    all.others = {{"Ben\x1B[2J", 2, a_monday}};
    for (const auto& text : {report::tune_text(weeks, {}, asked_by("")),
                             report::weeks_text(all, asked_by("An\x1B[0mna"))}) {
        INFO(text);
        CHECK_FALSE(has(text, "\x1B"));
        check_width(text);
    }
}

TEST_CASE("where nothing is kept yet, the history says what is", "[report]") {
    auto asked = asked_by("");
    CHECK(report::weeks_text({}, asked) ==
          "Nothing was played yet that was kept: each take of compline practice is, when it\n"
          "ends.\n");
    asked.since = "2026-11-01";
    CHECK(has(unbroken(report::weeks_text({}, asked)), "Nothing was played since 1 November"));
}

TEST_CASE("homework that was done weeks ago is not told any more", "[report]") {
    const auto text = report::weeks_text(all_weeks(""), asked_by(""));
    CHECK(has(text, "bars 9-12 of Lantern Street, 96 to 120 bpm: clean at 120 on 1 of 2 days"));
    CHECK(has(text, "bar 7 of Lantern Street, 96 to 120 bpm: done on Wednesday"));
    CHECK_FALSE(has(text, "bars 1-2"));
}
