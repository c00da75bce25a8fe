#pragma once

#include <compline/listen/listener.hpp>
#include <compline/practice/known_round_trip.hpp>
#include <compline/practice/machine.hpp>

#include <optional>

namespace compline::practice {

// A take is judged by the delays that it was played with. Who has measured them since may have it
// judged by those of now.

/// What is known now.
struct DelaysNow {
    listen::Delay delay;
    std::optional<KnownRoundTrip> round_trip;
};

/// What became of the round trip, which is in the times of a take already.
enum class RoundTripNow {
    not_known,           ///< none is known now: it stays as the take has it
    taken,               ///< the take is moved by the difference
    not_said_by_take,    ///< from elsewhere or cut short: nobody knows what is in its times
    measured_elsewhere,  ///< at another rate or period, or through another output
};

/// How a take was judged by the delays of now.
struct DelaysTaken {
    listen::Delay delay;
    RoundTripNow round_trip = RoundTripNow::not_known;
    time::Seconds moved{0};  ///< by which all of it counts as later (+) or earlier
};

/// machine: what the take was played on; none: it does not say.
[[nodiscard]] DelaysTaken take_delays(const DelaysNow& now, const std::optional<Machine>& machine);

/// What a take was played on.
[[nodiscard]] SoundPath sound_path_of(const Machine& machine);

}  // namespace compline::practice
