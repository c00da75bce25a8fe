#include "evening_gear.hpp"

#include <compline/live/device_choice.hpp>

#include <optional>
#include <string>

namespace compline::app {

namespace {

std::string before_colon(const std::string& wish) { return wish.substr(0, wish.find(':')); }

/// JACK first, and alone if it is there: asking every API can take longer than a count-in.
live::AudioOutput find_output(const std::string& wish) {
    if (!wish.empty()) return choose_output(live::audio_outputs(before_colon(wish)), wish);
    const auto jack = live::audio_outputs("JACK");
    return choose_output(jack.found.empty() ? live::audio_outputs() : jack, wish);
}

bool are_one(const live::MidiInput& a, const live::MidiInput& b) {
    return a.api == b.api && a.name == b.name;
}

/// Where nobody says which is the guitar, it is not what was said to be the pedal; unless there is
/// no other.
live::MidiInput find_guitar(const AskedEvening& asked,
                            const std::optional<live::MidiInput>& pedal) {
    auto inputs = live::midi_inputs(before_colon(asked.in));
    if (asked.in.empty() && pedal && inputs.found.size() > 1) {
        std::erase_if(inputs.found, [&](const auto& input) { return are_one(input, *pedal); });
    }
    return choose_input(inputs, asked.in);
}

}  // namespace

live::GearChoice find_gear(const AskedEvening& asked) {
    live::GearChoice gear;
    gear.output = find_output(asked.out);
    if (!asked.pedal_in.empty()) {
        gear.pedal = choose_pedal(live::midi_inputs(before_colon(asked.pedal_in)), asked.pedal_in);
    }
    if (asked.listens()) gear.input = find_guitar(asked, gear.pedal);
    // The guitar's own port is opened once.
    if (gear.pedal && gear.input && are_one(*gear.pedal, *gear.input)) gear.pedal.reset();
    gear.stream = {asked.rate, asked.period};
    return gear;
}

}  // namespace compline::app
