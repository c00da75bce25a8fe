#include "support/catch.hpp"

#include <compline/time/tempo_map.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace compline::time;

namespace {

/// Seeded, and the same numbers on every machine: what a distribution gives is the library's own.
class Chance {
  public:
    explicit Chance(unsigned seed) : random_(seed) {}
    int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
    double between(double low, double high) {
        constexpr int steps = 1'000'000;
        return low + (high - low) * below(steps) / steps;
    }
    Bpm tempo() { return Bpm(between(30, 400)); }

  private:
    std::mt19937 random_;
};

TempoMap random_map(Chance& chance, int knots) {
    TempoMap map(chance.tempo());
    for (int knot = 1; knot < knots; ++knot) {
        const auto last = map.knots().back().beat.count();
        map = map.with_tempo_from(Beats(last + chance.between(0.25, 64)), chance.tempo());
    }
    return map;
}

/// From before the first knot to far beyond the last, and the knots themselves.
std::vector<Beats> moments(const TempoMap& map, Chance& chance) {
    std::vector<Beats> moments;
    for (const auto& knot : map.knots()) moments.push_back(knot.beat);
    const double last = map.knots().back().beat.count();
    for (int i = 0; i < 50; ++i) moments.emplace_back(chance.between(-64, last + 64));
    for (int i = 0; i < 10; ++i) moments.emplace_back(chance.between(last, last + 20000));
    return moments;
}

}  // namespace

TEST_CASE("time to beat to time returns the same time, before bar 1 too and at odd tempos") {
    for (const double tempo : {30.0, 59.7, 132.0, 239.99, 400.0}) {
        const TempoMap map(Bpm(tempo), Beats(3.25), Seconds(-1.5));
        for (double t = -20; t < 4000; t += 13.37) {
            CHECK(map.time_of(map.beat_at(Seconds(t))).count() == Approx(t).margin(1e-9));
        }
    }
}

TEST_CASE("beat to time to beat returns the same beat, however often the tempo changes") {
    Chance chance(1);
    for (int knots = 1; knots <= 40; ++knots) {
        const auto map = random_map(chance, knots);
        for (const auto beat : moments(map, chance)) {
            const auto at = map.time_of(beat);
            REQUIRE(std::fabs(map.beat_at(at).count() - beat.count()) < 1e-9);
            REQUIRE(std::fabs(map.time_of(map.beat_at(at)).count() - at.count()) < 1e-9);
        }
    }
}

TEST_CASE("later beats come later, across every change of tempo") {
    Chance chance(2);
    for (int knots = 1; knots <= 40; ++knots) {
        const auto map = random_map(chance, knots);
        for (const auto& knot : map.knots()) {
            auto before = map.time_of(knot.beat - Beats(1));
            for (int step = -63; step <= 64; ++step) {
                const auto now = map.time_of(knot.beat + Beats(step / 64.0));
                REQUIRE(now > before);
                REQUIRE(map.beat_at(now) > map.beat_at(before));
                before = now;
            }
        }
    }
}

TEST_CASE("each beat lasts as long as the tempo it lies in says") {
    Chance chance(3);
    for (int i = 0; i < 100; ++i) {
        const auto map = random_map(chance, 1 + i % 40);
        double seconds = 0;
        for (std::size_t knot = 0; knot + 1 < map.knots().size(); ++knot) {
            const auto& here = map.knots()[knot];
            const auto& next = map.knots()[knot + 1];
            const double length = next.beat.count() - here.beat.count();
            REQUIRE(map.tempo_at(here.beat + Beats(length / 2)) == here.tempo);
            REQUIRE(map.tempo_at(next.beat - Beats(1e-6)) == here.tempo);
            REQUIRE(map.tempo_at(next.beat) == next.tempo);
            seconds += length * 60 / here.tempo.count();
            REQUIRE(map.time_of(next.beat).count() == Approx(seconds).margin(1e-9));
        }
        REQUIRE(map.tempo_at(Beats(-1000)) == map.knots().front().tempo);
    }
}

TEST_CASE("a change of tempo agrees with the old map before it and at it") {
    const TempoMap old_map(Bpm(120));
    const auto new_map = old_map.with_tempo_from(Beats(8), Bpm(60));
    CHECK(new_map.time_of(Beats(8)) == old_map.time_of(Beats(8)));
    CHECK(new_map.time_of(Beats(9)).count() == Approx(5.0));

    Chance chance(4);
    for (int i = 0; i < 200; ++i) {
        const auto map = random_map(chance, 1 + i % 40);
        const Beats from(chance.between(0, map.knots().back().beat.count() + 100));
        const auto changed = map.with_tempo_from(from, Bpm(77));
        REQUIRE(changed.time_of(from) == map.time_of(from));
        for (const auto beat : moments(map, chance)) {
            if (beat < from) {
                REQUIRE(changed.time_of(beat) == map.time_of(beat));
                REQUIRE(changed.tempo_at(beat) == map.tempo_at(beat));
            } else {
                REQUIRE(changed.tempo_at(beat) == Bpm(77));
            }
        }
    }
}

TEST_CASE("a tempo that does not change makes no knot") {
    const TempoMap map(Bpm(120));
    CHECK(map.with_tempo_from(Beats(8), Bpm(120)) == map);
    CHECK(map.with_tempo_from(Beats(0), Bpm(90)) == TempoMap(Bpm(90)));
    CHECK(map.with_tempo_from(Beats(8), Bpm(90)).with_tempo_from(Beats(8), Bpm(120)) == map);
    const auto back = map.with_tempo_from(Beats(8), Bpm(90)).with_tempo_from(Beats(4), Bpm(60));
    REQUIRE(back.knots().size() == 2);
    CHECK(back.knots()[1] == TempoKnot{Beats(4), Seconds(2), Bpm(60)});
}

TEST_CASE("one tempo gives, bit for bit, beats times the length of a beat") {
    Chance chance(5);
    for (int i = 0; i < 1000; ++i) {
        const double bpm = chance.between(30, 400);
        const double beats = chance.between(-100, 20000);
        const TempoMap map{Bpm(bpm)};
        REQUIRE(map.time_of(Beats(beats)).count() == beats * (60.0 / bpm));
        REQUIRE(map.beat_at(Seconds(beats)).count() == beats / (60.0 / bpm));
    }
}
