#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/place.hpp>
#include <compline/practice/conductor.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>

using namespace compline;
using practice::Conductor;
using time::Frames;

namespace {

constexpr time::SampleRate rate{48000};

chart::Form four_bars() {
    return tests::make_form(time::Meter(4), time::Bpm(132), {"Dm7", "G7", "Cmaj7", "A7"});
}

/// Bars of the four, so often or until stopped, with so many bars of count-in.
roadmap::RoadMap road(chart::Passage passage, std::optional<int> times, double bpm, int count_in) {
    auto asked = roadmap::Asked::of(passage, times);
    asked.tempo = time::Bpm(bpm);
    asked.count_in_bars = count_in;
    return {four_bars(), asked};
}

struct Collector {
    std::vector<sound::Cue> cues;
    bool operator()(const sound::Cue& cue) {
        cues.push_back(cue);
        return true;
    }
};

/// Lets it run to its end, looking in every `turn` frames.
std::vector<sound::Cue> all_cues(Conductor& conductor, std::int64_t turn, Frames until) {
    std::vector<sound::Cue> cues;
    for (Frames now(0); now < until && !conductor.done(); now = now + Frames(turn)) {
        conductor.feed(now, [&](const sound::Cue& cue) {
            REQUIRE(cue.at >= now);
            cues.push_back(cue);
            return true;
        });
    }
    return cues;
}

bool same(const std::vector<sound::Cue>& a, const std::vector<sound::Cue>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const sound::Cue& x, const sound::Cue& y) {
                          return x.at == y.at && x.stop == y.stop && x.sound == y.sound &&
                                 x.gain == y.gain && x.pan == y.pan;
                      });
}

}  // namespace

TEST_CASE("live, the band plays exactly what a rendered file has, however often one looks in") {
    const auto map = road({1, 4}, 3, 132, 2);
    const auto part = band::arrange(map, {});
    for (const std::int64_t turn : {480, 961, 48000}) {
        Conductor conductor(map, {}, {}, rate);
        conductor.start(Frames(4801));
        const auto expected = band::place(part, map, rate, conductor.zero(), {}, Frames(4801));
        CHECK(same(all_cues(conductor, turn, Frames(48000 * 60)), expected));
        CHECK(conductor.done());
    }
}

TEST_CASE("live, the band plays what a rendered file has through changes of tempo too") {
    const auto map = road({1, 4}, 3, 132, 1)
                         .with({3, roadmap::NewTempo{time::Bpm(96)}})
                         .with({9, roadmap::NewTempo{time::Bpm(201)}});
    const auto part = band::arrange(map, {});
    Conductor conductor(map, {}, {}, rate);
    conductor.start(Frames(77));
    const auto expected = band::place(part, map, rate, conductor.zero(), {}, Frames(77));
    CHECK(same(all_cues(conductor, 480, Frames(48000 * 60)), expected));
    // By hand: two bars at 132, six at 96, then the ninth.
    const double ninth = 60.0 * (8 / 132.0 + 24 / 96.0);
    const auto due = conductor.zero() + Frames(std::llround(ninth * rate.hz()));
    CHECK(std::any_of(expected.begin(), expected.end(), [&](const sound::Cue& cue) {
        return cue.sound == sound::ride && std::llabs((cue.at - due).count()) <= 1;
    }));
}

TEST_CASE("the first click is on the frame asked for, and bar 1 a count-in later") {
    for (const int bars : {0, 1, 2}) {
        Conductor conductor(road({2, 3}, std::nullopt, 120, bars), {}, {}, rate);
        conductor.start(Frames(1000));
        Collector collector;
        conductor.feed(Frames(0), std::ref(collector));
        REQUIRE_FALSE(collector.cues.empty());
        CHECK(collector.cues.front().at == Frames(1000));
        CHECK(conductor.zero() == Frames(1000 + bars * 96000));
    }
}

TEST_CASE(
    "the conductor runs two bars ahead of what sounds, at every tempo, and not the whole tune") {
    for (const double bpm : {30.0, 132.0, 400.0}) {
        Conductor conductor(road({1, 4}, std::nullopt, bpm, 0), {}, {}, rate);
        conductor.start(Frames(0));
        std::int64_t last = 0;
        const double two_bars = 8 * 60 / bpm * rate.hz();
        for (std::int64_t now = 0; now < 48000 * 20; now += 960) {
            conductor.feed(Frames(now), [&](const sound::Cue& cue) {
                CHECK(cue.at.count() >= last);
                last = cue.at.count();
                return true;
            });
            const double beat = 60 / bpm * rate.hz();
            REQUIRE(static_cast<double>(last - now) > two_bars - beat);
            REQUIRE(static_cast<double>(last - now) <= two_bars + 24001);
        }
    }
}

TEST_CASE(
    "a loop without an end has a ride stroke on every beat, to the frame, across every seam") {
    const double bpm = 187;
    Conductor conductor(road({2, 4}, std::nullopt, bpm, 0), {}, {}, rate);
    conductor.start(Frames(0));
    std::vector<std::int64_t> rides;
    for (std::int64_t now = 0; now < 48000 * 600; now += 9600) {
        conductor.feed(Frames(now), [&](const sound::Cue& cue) {
            if (cue.sound == sound::ride) rides.push_back(cue.at.count());
            return true;
        });
    }
    for (int beat = 0; beat < 1800; ++beat) {
        const auto due = std::llround(beat * 60.0 / bpm * rate.hz());
        REQUIRE(std::binary_search(rides.begin(), rides.end(), due));
    }
}

TEST_CASE("what finds no room is offered again, in order and once") {
    const auto map = road({1, 4}, 2, 132, 1);
    Conductor free(map, {}, {}, rate);
    free.start(Frames(0));
    Collector expected;
    free.feed(Frames(48000 * 100), std::ref(expected));
    Conductor crowded(map, {}, {}, rate);
    crowded.start(Frames(0));
    std::vector<sound::Cue> cues;
    for (int turn = 0; !crowded.done(); ++turn) {
        int room = turn % 4;
        crowded.feed(Frames(48000 * 100), [&](const sound::Cue& cue) {
            if (room-- <= 0) return false;
            cues.push_back(cue);
            return true;
        });
    }
    CHECK(same(cues, expected.cues));
}

TEST_CASE("starting over begins with the count-in again, and the same band") {
    Conductor conductor(road({1, 4}, std::nullopt, 132, 2), {}, {}, rate);
    conductor.start(Frames(100));
    Collector first;
    conductor.feed(Frames(480000), std::ref(first));
    conductor.start(Frames(100));
    Collector second;
    conductor.feed(Frames(480000), std::ref(second));
    CHECK(same(first.cues, second.cues));
}
