#include "roadmap/slow_walk.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/roadmap/road_map.hpp>

#include <string>
#include <thread>
#include <vector>

using namespace compline;
using chart::Passage;
using roadmap::RoadMap;
using tests::SlowWalk;
using tests::words_of;
using time::Ticks;

namespace {

constexpr unsigned many_scenes = 400;
constexpr int many_bars = 150;  // of what goes on until it is stopped
constexpr Ticks bar_of_four(3840);

RoadMap map_of(const std::vector<Passage>& passages, bool goes_on = false, int beats = 4) {
    roadmap::Asked asked;
    for (const auto passage : passages) asked.way.stretches.push_back({passage, "", {}, false});
    asked.way.goes_on = goes_on;
    return {tests::bare_bars(12, time::Meter(beats)), asked};
}

/// "time_through bar number in_bar", then "before" or "over".
std::string words(const roadmap::PlayedPlace& at) {
    return fmt::format("{} {} {} {}{}{}", at.time_through, at.bar, at.number, at.in_bar.count(),
                       at.before ? " before" : "", at.over ? " over" : "");
}

}  // namespace

TEST_CASE("every bar is the one that who writes them all down one by one comes to") {
    for (unsigned seed = 0; seed < many_scenes; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        const auto walked = SlowWalk(scene).bars(many_bars);
        CAPTURE(seed);
        for (const auto& bar : walked) REQUIRE(words_of(map.bar(bar.number)) == words_of(bar));
        if (!map.goes_on()) {
            REQUIRE(map.bars() == static_cast<std::int64_t>(walked.size()));
            REQUIRE(map.times_through() == walked.back().time_through);
            REQUIRE(map.end() == map.bar(walked.back().number).end());
        }
    }
}

TEST_CASE("times through begin where the first of their bars does") {
    for (unsigned seed = 0; seed < many_scenes; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        int time_through = 0;
        for (const auto& bar : SlowWalk(scene).bars(many_bars)) {
            if (bar.time_through == time_through) continue;
            time_through = bar.time_through;
            REQUIRE(map.first_bar(time_through) == bar.number);
            REQUIRE(map.start(time_through) == bar.start);
        }
        if (map.goes_on()) continue;
        REQUIRE(map.first_bar(time_through + 1) == *map.bars() + 1);
        REQUIRE(map.start(time_through + 1) == map.end());
    }
}

TEST_CASE("a position lies in the bar that is found at it, and in no other") {
    for (unsigned seed = 0; seed < many_scenes; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        tests::Chance chance(seed + 1);
        for (const auto& bar : SlowWalk(scene).bars(many_bars)) {
            const auto length = static_cast<int>(map.bar(bar.number).meter().bar().count());
            for (const Ticks in_bar : {Ticks(0), Ticks(chance.below(length)), Ticks(length - 1)}) {
                const auto at = map.place_at(bar.start + in_bar);
                CAPTURE(seed, bar.number, in_bar.count());
                REQUIRE(words(at) == fmt::format("{} {} {} {}", bar.time_through, bar.in_form,
                                                 bar.number, in_bar.count()));
                REQUIRE(words_of(map.bar_at(bar.start + in_bar)) == words_of(bar));
            }
        }
        if (!map.goes_on()) REQUIRE(map.place_at(map.end()).over);
    }
}

TEST_CASE("kicks are where the bars that are played have them, and chords too") {
    for (unsigned seed = 0; seed < many_scenes; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        const SlowWalk walk(scene);
        std::vector<Ticks> kicks;
        for (const auto& bar : walk.bars(many_bars)) {
            if (bar.waits) {
                REQUIRE(map.bar(bar.number).slots().empty());
                continue;
            }
            for (const auto kick : walk.written(bar.in_form).kicks) {
                kicks.push_back(bar.start + kick);
            }
            std::vector<chart::Slot> slots;
            for (const auto& span : scene.form.spans) {
                if (span.bar != bar.in_form) continue;
                slots.push_back(
                    {span.start - walk.written(bar.in_form).start, span.length, span.chord});
            }
            REQUIRE(map.bar(bar.number).slots() == slots);
        }
        if (!map.goes_on()) REQUIRE(map.kicks() == kicks);
    }
}

TEST_CASE("a place is named by time through, bar of the form and bar played") {
    const auto map = map_of({{9, 12}, {9, 12}});
    CHECK(words(map.place_at(Ticks(0))) == "1 9 1 0");
    CHECK(words(map.place_at(bar_of_four - Ticks(1))) == "1 9 1 3839");
    CHECK(words(map.place_at(bar_of_four * 3)) == "1 12 4 0");
    CHECK(words(map.place_at(bar_of_four * 4)) == "2 9 5 0");
    CHECK(words(map.place_at(bar_of_four * 7 + Ticks(960))) == "2 12 8 960");
}

TEST_CASE("before the beginning is the first bar, past the end the last") {
    const auto map = map_of({{5, 8}, {1, 8}, {2, 3}});
    CHECK(words(map.place_at(Ticks(-1))) == "1 5 1 0 before");
    CHECK(words(map.place_at(Ticks(-100000))) == "1 5 1 0 before");
    CHECK(words(map.place_at(bar_of_four * 14 - Ticks(1))) == "3 3 14 3839");
    CHECK(words(map.place_at(bar_of_four * 14)) == "3 3 14 0 over");
    CHECK(words(map.place_at(bar_of_four * 9999)) == "3 3 14 0 over");
    CHECK(words(map_of({{9, 12}}, true).place_at(Ticks(-1))) == "1 9 1 0 before");
    CHECK(map.bar_at(Ticks(-1)).number == 1);
    CHECK(map.bar_at(bar_of_four * 9999).number == 14);
}

TEST_CASE("a way of unlike stretches counts the bars of each") {
    const auto map = map_of({{5, 8}, {1, 8}, {2, 3}});
    CHECK(map.times_through() == 3);
    CHECK(map.bars() == 14);
    CHECK(map.first_bar(2) == 5);
    CHECK(map.first_bar(3) == 13);
    CHECK(map.first_bar(4) == 15);
    CHECK(words(map.place_at(bar_of_four * 4)) == "2 1 5 0");
    CHECK(words(map.place_at(bar_of_four * 12 + Ticks(5))) == "3 2 13 5");
    const auto in_three = map_of({{5, 8}, {1, 8}, {2, 3}}, false, 3);
    CHECK(words(in_three.place_at(Ticks(2880 * 12))) == "3 2 13 0");
    CHECK(in_three.start(3) == Ticks(12 * 2880));
}

TEST_CASE("a way that goes on comes back to its last stretch") {
    const auto map = map_of({{5, 8}, {1, 8}, {2, 3}}, true);
    CHECK(!map.times_through());
    CHECK(!map.bars());
    CHECK(map.first_bar(4) == 15);
    CHECK(map.first_bar(11) == 1 + 12 + 8 * 2);
    CHECK(words(map.place_at(bar_of_four * 3)) == "1 8 4 0");
    CHECK(words(map.place_at(bar_of_four * 12)) == "3 2 13 0");
    CHECK(words(map.place_at(bar_of_four * 14)) == "4 2 15 0");
    CHECK(words(map.place_at(bar_of_four * 27 + Ticks(1))) == "10 3 28 1");
}

TEST_CASE("a passage played until stopped is known at its millionth bar and beyond") {
    const auto map = map_of({{9, 12}}, true);
    CHECK(words_of(map.bar(1'000'000)) ==
          "1000000: 250000/12 at 3839996160, 120 bpm, swing " +
              fmt::format("{}", time::Swing::at(time::Bpm(120)).ratio()) +
              ", () on: db without:  ");
    CHECK(words(map.place_at(bar_of_four * 999'999)) == "250000 12 1000000 0");
    CHECK(words(map.place_at(bar_of_four * 4'000'003 + Ticks(7))) == "1000001 12 4000004 7");
    CHECK(map.first_bar(1'000'001) == 4'000'001);
    CHECK(map.start(1'000'001) == bar_of_four * 4'000'000);
    CHECK(map.time_of(bar_of_four * 1'000'000) == time::Seconds(2'000'000));
}

TEST_CASE("a bar begins a seam where the tune does not go on so, from the second time on") {
    const auto map = map_of({{1, 12}, {1, 8}, {9, 12}, {9, 12}, {1, 12}});
    std::vector<std::int64_t> seams;
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        if (map.bar(number).seam) seams.push_back(number);
    }
    CHECK(seams == std::vector<std::int64_t>{map.first_bar(4)});
    CHECK(map_of({{9, 12}}, true).bar(5).seam);
    CHECK_FALSE(map_of({{9, 12}}, true).bar(1).seam);
}

TEST_CASE("four threads that ask the same road map hear one answer", "[threads]") {
    unsigned seed = 0;
    while (!tests::random_scene(seed).asked.way.goes_on) ++seed;
    const auto scene = tests::random_scene(seed);
    const RoadMap map(scene.form, scene.asked);
    const auto answers = [](const RoadMap& asked) {
        std::string said;
        for (std::int64_t number = 1; number <= *asked.bars(); ++number) {
            const auto bar = asked.bar(number);
            said += fmt::format("{} {} {}\n", words_of(bar), words(asked.place_at(bar.start)),
                                asked.time_of(bar.start + Ticks(480)).count());
        }
        return said;
    };
    std::vector<std::string> said(4);
    std::vector<std::thread> threads;
    for (auto& what : said) {
        threads.emplace_back([&what, &answers, map] { what = answers(map.first(30)); });
    }
    for (auto& thread : threads) thread.join();
    for (const auto& what : said) CHECK(what == answers(map.first(30)));
}

TEST_CASE("what was asked is settled by the tempo and the count-in that there are") {
    auto form = tests::bare_bars(4);
    form.chart.tempo = time::Bpm(72);
    const auto open = roadmap::Asked::of({1, 4}, 1);
    const auto settled = RoadMap(form, open).settled();
    CHECK(settled.tempo == time::Bpm(72));
    CHECK(settled.count_in_bars == 1);
    auto asked = open;
    asked.tempo = time::Bpm(144);
    asked.count_in_bars = 0;
    CHECK(RoadMap(form, asked).settled() == asked);
}

TEST_CASE("a bar lasts as long as its beats do at its tempo") {
    roadmap::Asked asked = roadmap::Asked::of({1, 4}, 1);
    asked.tempo = time::Bpm(120);
    const RoadMap map(tests::bare_bars(4, time::Meter(3)), asked,
                      {{3, roadmap::NewTempo{time::Bpm(90)}}});
    CHECK(map.bar(2).lasts() == time::Seconds(1.5));
    CHECK(map.bar(3).lasts() == time::Seconds(2));
}
