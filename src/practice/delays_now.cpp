#include <compline/practice/delays_now.hpp>

namespace compline::practice {

SoundPath sound_path_of(const Machine& machine) {
    return {machine.rate_hz, machine.period_frames, machine.output};
}

DelaysTaken take_delays(const DelaysNow& now, const std::optional<Machine>& machine) {
    DelaysTaken taken{now.delay};
    if (!now.round_trip) return taken;
    if (!machine) {
        taken.round_trip = RoundTripNow::not_said_by_take;
    } else if (!now.round_trip->holds_on(sound_path_of(*machine))) {
        taken.round_trip = RoundTripNow::measured_elsewhere;
    } else {
        taken.round_trip = RoundTripNow::taken;
        const auto then = machine->round_trip_ms.value_or(machine->latency_ms);
        taken.moved = time::from_milliseconds(then) - now.round_trip->trip;
    }
    return taken;
}

}  // namespace compline::practice
