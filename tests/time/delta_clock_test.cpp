#include "support/catch.hpp"
#include "time/stamp_stream.hpp"

#include <compline/simulate/chance.hpp>
#include <compline/time/delta_clock.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

using namespace compline::time;
using namespace compline::tests;
using compline::simulate::Chance;

namespace {

/// A keyboard of messages as RtMidi hands them over from ALSA: when each truly came by the steady
/// clock, and the difference to the one before by a kernel clock that is slow by so many ppm.
class Messages {
  public:
    explicit Messages(double ppm = 0) : slowness_(1 - ppm * 1e-6) {}

    /// The next one, `gap` after the last, handed over `late`. Gives the error of the clock.
    Seconds next(Seconds gap, Seconds late) {
        truth_ = truth_ + gap;
        const Seconds kernel = whole_microseconds((truth_ - Instant()) * slowness_);
        arrival_ = std::max(arrival_, truth_ + late);
        answer_ = clock_.at(arrival_, kernel - kernel_);
        kernel_ = kernel;
        return answer_ - truth_;
    }
    [[nodiscard]] Instant arrival() const { return arrival_; }
    [[nodiscard]] Instant answer() const { return answer_; }

  private:
    static Seconds whole_microseconds(Seconds s) {
        return Seconds(std::round(s.count() * 1e6) / 1e6);
    }

    double slowness_;
    DeltaClock clock_;
    Instant truth_{3'000'000'000'000};
    Instant arrival_;
    Instant answer_;
    Seconds kernel_;
};

/// A guitarist's messages: gaps from a strum's to two beats.
Seconds gap(Chance& chance) { return from_milliseconds(1 + 700 * std::pow(chance.uniform(), 3)); }
Seconds up_to_3_ms(Chance& chance) { return from_milliseconds(3 * chance.uniform()); }

Errors play(Messages& messages, Seconds length, const std::function<Seconds(Chance&)>& late) {
    Chance chance(31);
    Errors errors;
    const Instant end = messages.arrival() + length;
    for (int i = 0; messages.arrival() < end; ++i) {
        const Seconds error = messages.next(gap(chance), late(chance));
        if (i >= 50) errors.add(error);
    }
    return errors;
}

}  // namespace

TEST_CASE(
    "messages on time are exact to the kernel's microsecond, and the first delta is ignored") {
    for (const double first_delta : {0.0, 12345.6, -1.0}) {
        DeltaClock clock;
        Instant moment(5'000'000'000);
        CHECK(clock.at(moment, Seconds(first_delta)) == moment);
        for (int i = 1; i < 100; ++i) {
            moment = moment + Seconds(0.25);
            CHECK(clock.at(moment, Seconds(0.25)) == moment);
        }
    }
}

TEST_CASE("a late message is put where the kernel saw it") {
    Messages messages;
    messages.next(Seconds(1), Seconds(0));
    for (const double late : {0.0, 3.0, 80.0}) {
        const Seconds error = messages.next(Seconds(0.5), from_milliseconds(late));
        CHECK(abs(error).milliseconds() <= 0.001);
    }
}

TEST_CASE("messages that are always up to 3 ms late: nearly all of it is taken away") {
    // Measured over JACK's stand-in with the driver's own stamps: jitter SD .001 to .05 ms.
    Messages uniform;
    const auto worst = play(uniform, Seconds(600), up_to_3_ms);
    CAPTURE(worst.sd(), worst.mean());
    CHECK(worst.sd() <= 0.05);
    CHECK(worst.largest() <= 0.2);

    Messages busy;
    WakeUps wake_ups(WakeUps::busy, 32);
    const auto usual = play(busy, Seconds(600), [&](Chance&) { return wake_ups.next(); });
    CAPTURE(usual.sd(), usual.mean());
    CHECK(usual.sd() <= 0.01);
    CHECK(usual.largest() <= 0.05);
}

TEST_CASE("an answer is never later than the arrival and never before the one before") {
    for (const double ppm : {-200.0, 0.0, 200.0}) {
        Messages messages(ppm);
        Chance chance(33);
        Instant before;
        for (int i = 0; i < 20000; ++i) {
            messages.next(gap(chance), up_to_3_ms(chance));
            REQUIRE(messages.answer() <= messages.arrival());
            REQUIRE(messages.answer() >= before);
            before = messages.answer();
        }
    }
}

TEST_CASE("ten hours of clocks that drift apart: off by 30 s of drift, not by ten hours of it") {
    // A minimum for ever would end 36 ms off at 1 ppm, 1.8 s at 50.
    for (const double ppm : {-50.0, -1.0, 1.0, 50.0}) {
        CAPTURE(ppm);
        Messages messages(ppm);
        const auto errors = play(messages, Seconds(36000), up_to_3_ms);
        CAPTURE(errors.sd(), errors.mean());
        CHECK(errors.largest() <= std::fabs(ppm) * 0.03 + 0.3);
    }
}

TEST_CASE("after a long pause the first strum is no worse for being late") {
    Messages messages;
    WakeUps wake_ups(WakeUps::busy, 34);
    play(messages, Seconds(60), [&](Chance&) { return wake_ups.next(); });
    const Seconds error = messages.next(Seconds(900), from_milliseconds(3));
    CHECK(abs(error).milliseconds() <= 0.15);  // the best of the last 32 before it
    for (int i = 0; i < 5; ++i) {
        const Seconds next = messages.next(from_milliseconds(2), from_milliseconds(3));
        CHECK(abs(next).milliseconds() <= 0.15);
    }
}

TEST_CASE("after a pause in which the clocks drifted 32 messages set it right") {
    for (const double ppm : {-20.0, 20.0}) {  // 12 ms in ten minutes
        CAPTURE(ppm);
        Messages messages(ppm);
        play(messages, Seconds(60), up_to_3_ms);
        const Seconds first = messages.next(Seconds(600), from_milliseconds(0.1));
        CHECK(abs(first).milliseconds() <= 12.1);
        for (int i = 0; i < 31; ++i) messages.next(Seconds(0.1), from_milliseconds(0.1));
        const Seconds error = messages.next(Seconds(0.5), from_milliseconds(0.1));
        CHECK(abs(error).milliseconds() <= 0.17);  // lateness, and 20 ppm of three seconds
    }
}
