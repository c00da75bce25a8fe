#include "roadmap/slow_walk.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/roadmap/road_map.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using roadmap::Decision;
using roadmap::everybody;
using roadmap::LaysOut;
using roadmap::NewTempo;
using roadmap::NewWay;
using roadmap::Paused;
using roadmap::RoadMap;
using roadmap::Stopped;
using roadmap::Waited;
using tests::words_of;
using time::Bpm;
using time::Ticks;

namespace {

constexpr time::Seconds a_moment(1e-7);
constexpr int many_bars = 60;  // of what goes on until it is stopped

/// All that is answered about the bars before this one. To a nanosecond: where sections have tempi
/// of their own, what comes again and again is multiplied and what is listed added up.
std::string answers_before(const RoadMap& map, std::int64_t end) {
    std::string said;
    for (std::int64_t number = 1; number < end; ++number) {
        const auto bar = map.bar(number);
        said += words_of(bar) + "\n";
        for (Ticks at = bar.start; at < bar.end(); at += Ticks(320)) {
            const auto place = map.place_at(at);
            const auto heard = map.time_of(at);
            said += fmt::format("{} {} {} {} {:.9f} ", place.number, place.bar, place.time_through,
                                place.in_bar.count(), heard.count());
            said += fmt::format("{:.9f} {} {} {}\n", map.written_at(heard).count(),
                                map.position_at(heard + a_moment).count(), map.tempo_at(at).count(),
                                map.swing_at(at).ratio());
        }
    }
    return said;
}

/// What is there, a bar beyond the last decision or further, and something new decided there.
std::pair<RoadMap, Decision> scene_of(unsigned seed) {
    const auto scene = tests::random_scene(seed);
    auto decided = scene.decided;
    while (!decided.empty() && (std::holds_alternative<Stopped>(decided.back().what) ||
                                std::holds_alternative<Paused>(decided.back().what))) {
        decided.pop_back();
    }
    const RoadMap map(scene.form, scene.asked, decided);
    tests::Chance chance(seed);
    auto earliest = decided.empty() ? 1 : decided.back().from_bar;
    if (!decided.empty() && std::holds_alternative<Waited>(decided.back().what)) ++earliest;
    const auto last = map.bars().value_or(earliest + many_bars);
    Decision next{earliest + chance.below(static_cast<int>(last - earliest) + 1), Stopped{}};
    if (next.from_bar == 1 || !chance.one_in(3)) next.what = LaysOut{everybody, chance.one_in(2)};
    if (chance.one_in(3)) next.what = NewTempo{Bpm(chance.from_to(30, 400))};
    if (chance.one_in(3)) next.what = NewWay{tests::random_way(scene.form, chance)};
    if (next.from_bar > 1 && chance.one_in(6)) next.what = Paused{};
    return {map, next};
}

RoadMap until_stopped(chart::Passage passage = {1, 4}) {
    return {tests::bare_bars(12), roadmap::Asked::of(passage, std::nullopt)};
}

}  // namespace

TEST_CASE("what is decided changes nothing before its bar, and the old road map not at all") {
    for (unsigned seed = 0; seed < 300; ++seed) {
        const auto [map, decision] = scene_of(seed);
        CAPTURE(seed, decision.from_bar);
        const auto whole = map.bars().value_or(decision.from_bar + many_bars) + 1;
        const auto before = answers_before(map, whole);
        const auto changed = map.with(decision);
        REQUIRE(answers_before(changed, decision.from_bar) ==
                answers_before(map, decision.from_bar));
        REQUIRE(answers_before(map, whole) == before);
        REQUIRE(map.decided().size() + 1 == changed.decided().size());
        REQUIRE(changed.decided().back() == decision);
        const bool same_bars = std::holds_alternative<NewTempo>(decision.what) ||
                               std::holds_alternative<LaysOut>(decision.what);
        if (same_bars) REQUIRE(changed.bars() == map.bars());
        const auto known = changed.known_at(decision.from_bar - 1);
        REQUIRE(answers_before(known, decision.from_bar) == answers_before(map, decision.from_bar));
    }
}

TEST_CASE("decided one after the other is decided all at once") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        const auto scene = tests::random_scene(seed);
        RoadMap map(scene.form, scene.asked);
        for (const auto& decision : scene.decided) map = map.with(decision);
        const auto bars = map.bars().value_or(many_bars);
        REQUIRE(answers_before(map, bars + 1) == answers_before(scene.map(), bars + 1));
    }
}

TEST_CASE("of several tempi decided for a bar the last one counts") {
    const auto map = until_stopped().with({3, NewTempo{Bpm(90)}}).with({3, NewTempo{Bpm(150)}});
    CHECK(map.bar(2).tempo == Bpm(120));
    CHECK(map.bar(3).tempo == Bpm(150));
    CHECK(map.with({1'000, NewTempo{Bpm(60)}}).bar(999).tempo == Bpm(150));
    CHECK(map.with({1'000, NewTempo{Bpm(60)}}).bar(1'000'000).tempo == Bpm(60));
}

TEST_CASE("a tempo decided for the first bar is the one with which all begins") {
    const auto map = until_stopped().with({1, NewTempo{Bpm(60)}});
    CHECK(map.tempo() == Bpm(60));
    CHECK(map.count_in_bars() == 1);
}

TEST_CASE("stopped in the middle of a time through, that bar is not played and no end is held") {
    auto asked = roadmap::Asked::of({1, 12}, 3);
    asked.way.held_ending = true;
    const RoadMap map(until_stopped().form(), asked);
    CHECK(map.way().held_ending);
    const auto stopped = map.with({18, Stopped{}});
    CHECK(stopped.bars() == 17);
    CHECK(stopped.times_through() == 2);
    CHECK(stopped.way().stretches.back().passage == chart::Passage{1, 5});
    CHECK_FALSE(stopped.way().held_ending);
    CHECK(stopped.end() == Ticks(17 * 3840));
    CHECK(stopped.place_at(Ticks(17 * 3840)).over);
    CHECK(stopped.asked() == map.asked());
    CHECK_FALSE(map.with({36, Stopped{}}).way().held_ending);
    // Where it would have ended anyway, it ends as it would have.
    CHECK(map.with({37, Stopped{}}).way().held_ending);
}

TEST_CASE("what goes on ends where it is stopped") {
    const auto map = until_stopped({9, 12}).with({7, Stopped{}});
    CHECK_FALSE(map.goes_on());
    CHECK(map.bars() == 6);
    CHECK(map.times_through() == 2);
    CHECK(map.bar(6).in_form() == 10);
}

TEST_CASE("the first times through are those of the whole, and then it ends") {
    for (unsigned seed = 0; seed < 200; ++seed) {
        const auto map = tests::random_scene(seed).map();
        const int times = 1 + static_cast<int>(seed % 7);
        const auto first = map.first(times);
        CAPTURE(seed, times);
        REQUIRE_FALSE(first.goes_on());
        REQUIRE(first.times_through() == std::min(times, map.times_through().value_or(times)));
        REQUIRE(*first.bars() < map.first_bar(*first.times_through() + 1));
        REQUIRE(answers_before(first, *first.bars() + 1) == answers_before(map, *first.bars() + 1));
    }
}

TEST_CASE("more times through than there are is all there are") {
    auto asked = roadmap::Asked::of({1, 12}, 2);
    asked.way.held_ending = true;
    const RoadMap map(until_stopped().form(), asked);
    CHECK(map.first(5).way() == map.way());
    CHECK(map.first(2).decided().empty());
    CHECK_FALSE(map.first(1).way().held_ending);
    CHECK(map.first(1).first(1).bars() == 12);
}

TEST_CASE("what was decided for later is no part of the first times through") {
    const auto map = until_stopped().with({3, NewTempo{Bpm(90)}}).with({9, LaysOut{everybody}});
    const auto first = map.first(2);
    CHECK(first.decided() == std::vector<Decision>{{3, NewTempo{Bpm(90)}}, {9, Stopped{}}});
    CHECK(map.first(3).bar(9).is_silent());
}

TEST_CASE("another way is played from its beginning, and times through are counted on") {
    const auto map = until_stopped({1, 12}).with({7, NewWay{chart::Way::of({5, 8}, 2)}});
    CHECK(map.times_through() == 3);
    CHECK(map.bars() == 14);
    CHECK(map.bar(6).in_form() == 6);
    CHECK(map.bar(7).in_form() == 5);
    CHECK(map.bar(7).time_through == 2);
    CHECK(map.bar(7).seam);
    CHECK(map.way().stretches.front().passage == chart::Passage{1, 6});
    const auto on = until_stopped({1, 12}).with({7, NewWay{chart::Way::of({7, 8}, 1)}});
    CHECK_FALSE(on.bar(7).seam);  // the tune goes on so
}

TEST_CASE("a way that is left before a bar of it was played is no time through") {
    const auto map = until_stopped({1, 12})
                         .with({13, NewWay{chart::Way::of({5, 8}, std::nullopt)}})
                         .with({13, NewWay{chart::Way::of({9, 12}, std::nullopt)}});
    CHECK(map.bar(13).time_through == 2);
    CHECK(map.bar(13).in_form() == 9);
    CHECK(map.bar(1'000'000).in_form() == 9 + (1'000'000 - 13) % 4);
}

TEST_CASE("a wait is a bar of no form between two times through") {
    const auto map = until_stopped({1, 12})
                         .with({7, Paused{}})
                         .with({7, NewTempo{Bpm(60)}})
                         .with({7, Waited{9, chart::Way::of({5, 8}, std::nullopt)}});
    const auto wait = map.bar(7);
    CHECK(wait.waits);
    CHECK_FALSE(wait.is_silent());
    CHECK_FALSE(wait.plays().anybody());
    CHECK(wait.in_form() == 0);
    CHECK(wait.time_through == 1);
    CHECK(wait.end() - wait.start == Ticks(9 * 960));
    CHECK(wait.slots().empty());
    CHECK(map.bar(8).in_form() == 5);
    CHECK(map.bar(8).time_through == 2);
    CHECK_FALSE(map.bar(8).seam);  // nothing leads there
    CHECK(map.first_bar(2) == 8);
    CHECK(map.start(2) == wait.end());
    CHECK(map.tempi().time_of(wait.end()) == time::Seconds(12 + 9));
    CHECK(map.place_at(wait.start + Ticks(3000)).number == 7);
    CHECK(map.first(1).bars() == 6);
}

TEST_CASE("paused, the road map ends for now, and no end is held") {
    auto asked = roadmap::Asked::of({1, 12}, 1);
    asked.way.held_ending = true;
    const auto map = RoadMap(until_stopped().form(), asked).with({13, Paused{}});
    CHECK(map.bars() == 12);
    CHECK_FALSE(map.way().held_ending);
    const auto stopped = map.with({13, Waited{4, asked.way}}).with({14, Stopped{}});
    CHECK(stopped.bars() == 13);
    CHECK(stopped.bar(13).waits);
    CHECK(stopped.times_through() == 1);
    CHECK_FALSE(stopped.way().held_ending);
}

TEST_CASE("who lays out stays out until he is back, whoever else comes and goes") {
    const auto map = until_stopped()
                         .with({2, LaysOut{{true, false, false, false}}})
                         .with({3, LaysOut{{false, true, false, false}}})
                         .with({4, LaysOut{{true, false, false, false}, false}});
    CHECK(words_of(map.bar(1).plays()) == "db");
    CHECK(words_of(map.bar(2).plays()) == "b");
    CHECK(map.bar(3).is_silent());
    CHECK(words_of(map.bar(4).plays()) == "d");
    CHECK(map.bar(3).left_out == roadmap::WhoPlays{});
}
