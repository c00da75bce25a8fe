#include "support/catch.hpp"
#include "time/stamp_stream.hpp"

#include <compline/time/clock_map.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

using namespace compline::time;
using namespace compline::tests;

namespace {

/// A stream, its map and late wake-ups, run together.
struct Replay {
    explicit Replay(StampStream::Set set, WakeUps::Load load = WakeUps::idle)
        : stream(set), map(stream.rate()), wake_ups(load, 21) {}

    void callback() { map.add(stream.next(wake_ups.next())); }
    void callback_late(double ms) { map.add(stream.next(from_milliseconds(ms))); }
    void play(Seconds length) {
        const Seconds end = stream.now() + length;
        while (stream.now() < end) callback();
    }
    [[nodiscard]] double error_ms() const {
        const Instant moment = *map.last_called();
        return std::fabs((map.stream_time_at(moment) - stream.truth(moment)).milliseconds());
    }

    StampStream stream;
    ClockMap map;
    WakeUps wake_ups;
};

/// Plays on until 60 ms (or the fourth block) after a loss. The map must be right from there on.
void check_right_again(Replay& replay) {
    const Instant resumed = replay.stream.due();
    const Seconds soon = std::max(Seconds(0.06), replay.stream.period() * 3.0);
    while (replay.stream.due() - resumed < soon) replay.callback();
    for (int i = 0; i < 30; ++i) {
        replay.callback();
        CHECK(replay.error_ms() <= 0.1);
    }
}

void check_one_step_at(const Replay& replay, Seconds at, Seconds margin) {
    const auto& steps = replay.map.steps();
    REQUIRE(steps.size() == 1);
    CHECK(abs(steps[0] - at) <= margin);
    for (const double away : {-0.9, -0.3, 0.0, 0.3, 0.9}) {
        CHECK(replay.map.uncertain(at + Seconds(away)));
    }
    for (const double away : {-3.0, -1.1, 1.1, 3.0}) {
        CHECK(!replay.map.uncertain(at + Seconds(away)));
    }
}

}  // namespace

TEST_CASE("one callback woken late is no step and moves nothing") {
    for (const int period : {64, 256, 1024}) {
        for (const double late : {0.4, 3.0, 8.0, 40.0}) {
            CAPTURE(period, late);
            Replay replay({48000, period});
            replay.play(Seconds(2));
            replay.callback_late(late);
            CHECK(replay.error_ms() <= 0.05);
            replay.play(Seconds(2));
            CHECK(replay.error_ms() <= 0.05);
            CHECK(replay.map.steps().empty());
            CHECK(!replay.map.uncertain(Seconds(2)));
        }
    }
}

TEST_CASE("a burst of late callbacks is no step while it is shorter than 50 ms") {
    Replay replay({48000, 256});
    replay.play(Seconds(2));
    for (const double late : {1.0, 4.0, 9.0, 2.0, 3.0, 5.0, 0.7, 3.0, 2.0}) {  // 48 ms
        replay.callback_late(late);
        CHECK(replay.error_ms() <= 0.05);
    }
    replay.play(Seconds(2));
    CHECK(replay.error_ms() <= 0.05);
    CHECK(replay.map.steps().empty());
}

TEST_CASE("a longer burst is taken for lost sound, once, and is over when it is over") {
    // The limit of the rule: whoever is late for good cannot be told apart from one whose sound was
    // lost.
    Replay replay({48000, 256});
    replay.play(Seconds(2));
    for (int i = 0; i < 15; ++i) replay.callback_late(3);
    replay.callback();
    CHECK(replay.error_ms() <= 0.1);
    replay.play(Seconds(2));
    check_one_step_at(replay, Seconds(2), Seconds(0.02));
}

TEST_CASE("an xrun of 1 to 20 periods is found with and without the flag, once") {
    for (const int period : {64, 256, 512, 1024}) {
        for (int lost = 1; lost <= 20; ++lost) {
            for (const bool flag : {false, true}) {
                CAPTURE(period, lost, flag);
                Replay replay({48000, period});
                replay.play(Seconds(4));
                const Seconds at = replay.stream.now();
                replay.stream.lose(lost, flag);
                check_right_again(replay);
                replay.play(Seconds(4));
                check_one_step_at(replay, at, replay.stream.period());
                CHECK(replay.map.interruptions() == 1);
            }
        }
    }
}

TEST_CASE("with two busy cores an xrun is found as well") {
    for (int lost = 1; lost <= 20; ++lost) {
        CAPTURE(lost);
        Replay replay({48000, 256}, WakeUps::busy);
        replay.play(Seconds(4));
        const Seconds at = replay.stream.now();
        replay.stream.lose(lost, false);
        check_right_again(replay);
        replay.play(Seconds(4));
        check_one_step_at(replay, at, replay.stream.period() * 2.0);
        CHECK(replay.map.interruptions() == 1);
    }
}

TEST_CASE("a flag that comes some callbacks before or after the lost sound counts once with it") {
    for (const int period : {64, 256, 1024}) {
        for (const int flagged : {-2, -1, 1, 2, 3}) {
            CAPTURE(period, flagged);
            Replay replay({48000, period});
            for (int i = -200; i < 200; ++i) {
                if (i == 0) replay.stream.lose(4, false);
                Stamp stamp = replay.stream.next(replay.wake_ups.next());
                stamp.interrupted = i == flagged;
                replay.map.add(stamp);
            }
            CHECK(replay.map.steps().size() == 1);
            CHECK(replay.map.interruptions() == 1);
        }
    }
}

TEST_CASE("a flag alone is a step: what was lost may be too little to be seen") {
    Replay replay({48000, 256});
    replay.play(Seconds(4));
    const Seconds at = replay.stream.now();
    replay.stream.lose(0, true);
    replay.play(Seconds(4));
    check_one_step_at(replay, at, Seconds(1e-9));
    CHECK(replay.map.interruptions() == 1);
}

TEST_CASE("several xruns in one second are as many, and the map is right after each") {
    Replay replay({48000, 256});
    replay.play(Seconds(3));
    std::vector<Seconds> lost_at;
    for (const int lost : {1, 7, 2, 20, 3}) {
        lost_at.push_back(replay.stream.now());
        replay.stream.lose(lost, lost % 2 == 0);
        check_right_again(replay);
    }
    replay.play(Seconds(3));
    REQUIRE(replay.map.steps().size() == lost_at.size());
    for (std::size_t i = 0; i < lost_at.size(); ++i) {
        CHECK(abs(replay.map.steps()[i] - lost_at[i]) <= replay.stream.period());
    }
    CHECK(replay.map.interruptions() == 5);
}

TEST_CASE("xruns in a row, 20 ms apart: the map is right 60 ms after the last") {
    Replay replay({48000, 256});
    replay.play(Seconds(3));
    for (int i = 0; i < 8; ++i) {
        replay.stream.lose(2, false);
        replay.play(Seconds(0.02));
    }
    replay.stream.lose(2, false);
    const Seconds last = replay.stream.now();
    check_right_again(replay);
    CHECK(replay.map.steps().size() >= 3);
    CHECK(replay.map.uncertain(last + Seconds(0.9)));
}

TEST_CASE("a machine that slept: a leap of seconds or hours is one step, and right soon after") {
    for (const double slept : {0.5, 2.0, 3600.0}) {
        CAPTURE(slept);
        Replay replay({48000, 256});
        replay.play(Seconds(4));
        const Seconds at = replay.stream.now();
        replay.stream.leap(Seconds(slept));
        check_right_again(replay);
        replay.play(Seconds(4));
        check_one_step_at(replay, at, replay.stream.period());
    }
}

TEST_CASE("a leap hidden by lost stamps is found where stamps come again") {
    for (const double missing : {0.2, 3.0}) {
        CAPTURE(missing);
        Replay replay({48000, 256});
        replay.play(Seconds(4));
        const Seconds end = replay.stream.now() + Seconds(missing);
        replay.stream.lose(5, false);
        while (replay.stream.now() < end) replay.stream.next();
        const Seconds at = replay.stream.now();
        check_right_again(replay);
        replay.play(Seconds(4));
        check_one_step_at(replay, at, replay.stream.period());
    }
}

TEST_CASE("a stream that catches up steps down: found at once, no sound was lost") {
    for (const double ahead : {0.4, 4.0, 12.0}) {
        CAPTURE(ahead);
        Replay replay({48000, 256});
        replay.play(Seconds(4));
        const Seconds at = replay.stream.now();
        replay.stream.leap(from_milliseconds(-ahead));
        for (int i = 0; i < 4; ++i) replay.callback();  // what 12 ms hold comes in one go
        CHECK(replay.error_ms() <= 0.1);
        replay.play(Seconds(4));
        check_one_step_at(replay, at, replay.stream.period());
        CHECK(replay.map.interruptions() == 0);
    }
}

TEST_CASE("a stream that catches up in several goes within a fifth of a second steps once") {
    Replay replay({48000, 256});
    replay.play(Seconds(4));
    const Seconds at = replay.stream.now();
    for (int i = 0; i < 4; ++i) {
        replay.stream.leap(from_milliseconds(-1));
        replay.play(Seconds(0.1));
        CHECK(replay.error_ms() <= 0.1);
    }
    replay.play(Seconds(4));
    check_one_step_at(replay, at, replay.stream.period());
}

TEST_CASE("a stream that fills its buffer as it starts has not stepped") {
    Replay replay({48000, 256});
    replay.callback_late(16);  // and the next three at once with it
    replay.play(Seconds(3));
    CHECK(replay.error_ms() <= 0.05);
    CHECK(replay.map.steps().empty());
}

TEST_CASE("nothing is trusted before the map settled, so nothing steps, but a flag counts") {
    Replay replay({48000, 256});
    replay.play(Seconds(0.1));
    replay.stream.lose(10, false);
    replay.play(Seconds(0.1));
    CHECK(!replay.map.settled());
    replay.play(Seconds(0.3));
    CHECK(replay.map.settled());
    CHECK(replay.error_ms() <= 0.1);
    CHECK(replay.map.steps().empty());

    Replay flagged({48000, 256});
    flagged.stream.lose(0, true);
    flagged.play(Seconds(0.1));
    CHECK(flagged.map.interruptions() == 1);
    CHECK(flagged.map.uncertain(Seconds(0.5)));
}

TEST_CASE("a period that changes with a gap in the sound is one step") {
    Replay replay({48000, 256});
    replay.play(Seconds(4));
    const Seconds at = replay.stream.now();
    replay.stream.change_period(1024);
    replay.stream.lose(3, false);
    check_right_again(replay);
    replay.play(Seconds(4));
    check_one_step_at(replay, at, replay.stream.period());
}
