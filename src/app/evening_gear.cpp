#include "evening_gear.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/text/bad_input.hpp>

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
    auto inputs = live::midi_inputs(before_colon(asked.in.text));
    if (asked.in.empty() && pedal && inputs.found.size() > 1) {
        std::erase_if(inputs.found, [&](const auto& input) { return are_one(input, *pedal); });
    }
    return choose_input(inputs, asked.in.text);
}

/// To what refuses a wish that was not typed, the place where it stands is added.
template <typename Find>
auto find(const AsGiven& wish, Find find_it) {
    const bool is_typed = wish.empty() || is_option_name(wish.name);
    return text::read_at(is_typed ? "" : wish.name, find_it);
}

}  // namespace

live::GearChoice find_gear(const AskedEvening& asked) {
    live::GearChoice gear;
    gear.output = find(asked.out, [&] { return find_output(asked.out.text); });
    if (!asked.pedal_in.empty()) {
        const auto& wish = asked.pedal_in.text;
        gear.pedal = find(asked.pedal_in, [&] {
            return choose_pedal(live::midi_inputs(before_colon(wish)), wish);
        });
    }
    if (asked.listens()) {
        gear.input = find(asked.in, [&] { return find_guitar(asked, gear.pedal); });
    }
    // The guitar's own port is opened once.
    if (gear.pedal && gear.input && are_one(*gear.pedal, *gear.input)) gear.pedal.reset();
    gear.stream = {asked.rate, asked.period};
    return gear;
}

std::string input_name(const AsGiven& wish) {
    if (wish.text == no_input) return "";
    try {
        const auto input = choose_input(live::midi_inputs(before_colon(wish.text)), wish.text);
        return input.api + ":" + input.name;
    } catch (const BadInput&) {
        return "";  // whoever opens it says why there is none
    }
}

}  // namespace compline::app
