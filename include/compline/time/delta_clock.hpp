#pragma once

#include <compline/time/sliding_minimum.hpp>
#include <compline/time/units.hpp>

#include <cstdint>

namespace compline::time {

/// Moments of messages of which a library tells only how long after the one before each came
/// (RtMidi over ALSA: differences of the kernel's own stamps, good to a few microseconds, while the
/// thread that reads them may be woken late by milliseconds).
///
/// The sum of the differences is right but for a constant; a message may arrive late, never early,
/// so the constant is the smallest (arrival - sum). It is taken over the last 30 s, not for ever:
/// the kernel's clock and the steady one drift apart, and a minimum for ever is off by 36 ms after
/// ten hours at 1 ppm. Within 30 s even 50 ppm are 1.5 ms, and in 30 s of playing some message is
/// on time. The last 32 messages count however old they are, so that after a long pause the first
/// strum (whose notes are all late when one is) does not stand alone; at 1 ppm a pause of ten
/// minutes then costs 0.6 ms until 32 more have come.
///
/// No message may be left out: its difference would be missing in the sum.
///
/// Threads: one. A port opened anew gets a new DeltaClock.
class DeltaClock {
  public:
    DeltaClock();

    /// When a message happened; each message once, in order. arrival: when it was handed over,
    /// never going back. delta: since the message before, 0 or more (asserted); the first one's
    /// means nothing. The answer is never later than the arrival and never before the last answer.
    Instant at(Instant arrival, Seconds delta);

  private:
    SlidingMinimum latest_;
    std::int64_t sum_ = 0;  // of the differences, in nanoseconds
};

}  // namespace compline::time
