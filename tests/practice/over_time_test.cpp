// What became of a tune over several evenings, place by place.

#include "report/hand_made.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/practice/over_time.hpp>

#include <fmt/format.h>

using namespace compline;
using namespace compline::practice;
using namespace compline::tests;
using assess::Change;

namespace {

Change late(double ms, int bar) {
    auto change = at(a_change(), 1, bar);
    change.verdict = assess::Verdict::late;
    change.lateness = time::from_milliseconds(ms);
    return change;
}

Change right(int bar) { return at(a_change(), 1, bar); }

/// On a day of November, at eight in the evening.
TakeInPlaces on_day(int day, const std::vector<Change>& changes) {
    auto take = in_places(report_of(changes), true);
    take.made = fmt::format("2026-11-{:02}T20:00:00+01:00", day);
    take.take = fmt::format("{:02}.mid", day);
    return take;
}

/// Bar 7 on so many days in a row: as many milliseconds late.
OverTime bar_7_late_by(const std::vector<double>& ms) {
    std::vector<TakeInPlaces> takes;
    for (const double by : ms) {
        const int day = static_cast<int>(takes.size()) + 1;
        takes.push_back(on_day(day, {by > 0 ? late(by, 7) : right(7)}));
    }
    return over_time(takes);
}

}  // namespace

TEST_CASE("takes stand in order of their dates, and those of an evening count together") {
    const auto over = over_time(
        {on_day(9, {right(7)}), on_day(3, {late(90, 7)}), on_day(3, {right(7), right(9)})});
    REQUIRE(over.evenings.size() == 2);
    CHECK(over.evenings[0].date == "2026-11-03");
    CHECK(over.evenings[0].takes.size() == 2);
    CHECK(over.evenings[0].all.of == 3);
    CHECK(over.evenings[0].all.right == 2);
    CHECK(over.evenings[1].date == "2026-11-09");
    REQUIRE(over.places.size() == 2);
    CHECK(over.places[0].on[0]->of == 2);
    CHECK(over.places[0].on[1]->of == 1);
    CHECK(over.places[0].became() == Became::better);
}

TEST_CASE("a take after midnight is of the evening before") {
    auto late_night = on_day(4, {right(7)});
    late_night.made = "2026-11-04T01:30:00+01:00";
    const auto over = over_time({late_night, on_day(3, {right(7)})});
    REQUIRE(over.evenings.size() == 1);
    CHECK(over.evenings[0].takes == std::vector<std::string>{"03.mid", "04.mid"});
}

TEST_CASE("takes without a date stand behind, each by itself, by their names") {
    auto b = on_day(1, {right(7)});
    auto a = b;
    b.made = "";
    b.take = "b.mid";
    a.made = "some day";
    a.take = "a.mid";
    const auto over = over_time({b, a, on_day(20, {late(90, 7)})});
    REQUIRE(over.evenings.size() == 3);
    CHECK(over.evenings[0].date == "2026-11-20");
    CHECK(over.evenings[1].takes.front() == "a.mid");
    CHECK(over.evenings[2].takes.front() == "b.mid");
    CHECK(over.evenings[2].date.empty());
}

TEST_CASE("the first third of a place's evenings is compared with the last third") {
    CHECK(third_of(1) == 1);
    CHECK(third_of(2) == 1);
    CHECK(third_of(5) == 1);
    CHECK(third_of(6) == 2);
    CHECK(third_of(9) == 3);
    // What lies between does not count, nor does one good evening among the last two.
    CHECK(bar_7_late_by({0, 120, 120, 0}).places[0].became() == Became::same);
    CHECK(bar_7_late_by({90, 0, 120}).places[0].became() == Became::worse);
    const auto six = bar_7_late_by({100, 100, 0, 0, 100, 0});
    CHECK(six.places[0].between.before.of == 2);
    CHECK(six.places[0].between.before.cost_each() == Approx(0.5));
    CHECK(six.places[0].between.after.cost_each() == Approx(0.25));
    CHECK(six.places[0].became() == Became::better);
    CHECK(six.before.of == 2);
    CHECK(six.after.right == 1);
}

TEST_CASE("a place is compared by the evenings on which it was played") {
    // The whole tune first and last, a loop of bar 9 between.
    const auto over =
        over_time({on_day(1, {late(90, 7), late(90, 9)}), on_day(2, {late(60, 9)}),
                   on_day(3, {right(9)}), on_day(4, {late(90, 7)}), on_day(5, {right(11)})});
    REQUIRE(over.places.size() == 3);
    CHECK(over.places[0].evenings == 2);
    CHECK(over.places[0].became() == Became::same);
    CHECK(!over.places[0].always_right());
    CHECK(!over.places[0].on[1]);
    CHECK(over.places[1].evenings == 3);
    CHECK(over.places[1].became() == Became::better);
    CHECK(over.places[2].became() == Became::once);
    CHECK(over.places[2].always_right());
    CHECK(over.count(Became::once) == 1);
    CHECK(over.before.of == 2);
    CHECK(over.after.of == 2);
}

TEST_CASE("chords are named in the key of the last take, places stay the same in every key") {
    auto in_g = on_day(1, {late(90, 7)});
    in_g.key = chart::read_key_for(in_g.key, "G");
    for (auto& [where, place] : in_g.places) {
        place.from = chord("E7");
        place.to = chord("Am7");
    }
    auto in_c = on_day(2, {right(9)});
    in_c.key = chart::read_key_for(in_c.key, "C");
    const auto over = over_time({in_c, in_g});
    REQUIRE(over.places.size() == 2);
    CHECK(over.places[0].between.from->symbol() == "A7");
    CHECK(over.places[0].between.to.symbol() == "Dm7");
    CHECK(over.in_several_keys());
    CHECK(!over_time({in_c}).in_several_keys());
}

TEST_CASE("a take by sound among them: all are judged by time alone") {
    auto change = right(7);
    change.tones = assess::Tones::wrong;
    auto by_sound = on_day(2, {right(7)});
    by_sound.by_sound = true;
    const auto over = over_time({on_day(1, {change}), by_sound});
    CHECK(over.time_alone);
    CHECK(over.takes_by_sound == 1);
    const auto clumsy = clumsy_report();
    const auto tones = in_places(clumsy, true);
    const auto time = in_places(clumsy, false);
    int wrong = 0;
    for (const auto& [where, place] : tones.places) {
        wrong += place.figures.count(PlaceFault::wrong);
    }
    CHECK(wrong > 0);
    for (const auto& [where, place] : time.places) {
        CHECK(place.figures.count(PlaceFault::wrong) == 0);
    }
    CHECK(!time.by_sound);
}

TEST_CASE("an evening has the tempi of all its takes") {
    auto slow = on_day(1, {right(7)});
    slow.tempi = TempoBounds{time::Bpm(96), time::Bpm(104)};
    auto quick = slow;
    quick.tempi = TempoBounds{time::Bpm(100), time::Bpm(132)};
    auto free = slow;
    free.tempi.reset();
    const auto over = over_time({slow, quick, free});
    CHECK(over.evenings[0].tempi == TempoBounds{time::Bpm(96), time::Bpm(132)});
    CHECK(in_places(clumsy_report(), true).tempi == TempoBounds{time::Bpm(132), time::Bpm(132)});
}
