#include "evening_gear.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <optional>
#include <string>
#include <utility>

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

/// To what refuses a wish that was not typed, the place where it stands is added.
template <typename Find>
auto find(const AsGiven& wish, Find find_it) {
    const bool is_typed = wish.empty() || is_option_name(wish.name);
    return text::read_at(is_typed ? "" : wish.name, find_it);
}

}  // namespace

MidiChoice choose_ports(const AskedEvening& asked, live::MidiInputs guitars,
                        const live::MidiInputs& pedals) {
    MidiChoice chosen;
    if (!asked.pedal_in.empty()) {
        chosen.pedal =
            find(asked.pedal_in, [&] { return choose_pedal(pedals, asked.pedal_in.text); });
    }
    if (!asked.listens() || asked.hears_sound()) return chosen;
    auto& found = guitars.found;
    if (asked.in.empty() && chosen.pedal && found.size() > 1) {
        std::erase_if(found, [&](const auto& input) { return are_one(input, *chosen.pedal); });
    }
    chosen.guitar = find(asked.in, [&] { return choose_input(guitars, asked.in.text); });
    // The guitar's own port is opened once.
    if (chosen.pedal && are_one(*chosen.pedal, *chosen.guitar)) chosen.pedal.reset();
    return chosen;
}

live::AudioOutput output_meant(const AsGiven& wish) {
    return find(wish, [&] { return find_output(wish.text); });
}

live::MidiInput input_meant(const AsGiven& wish) {
    return find(
        wish, [&] { return choose_input(live::midi_inputs(before_colon(wish.text)), wish.text); });
}

live::SoundInput sound_meant(const AsGiven& wish, const std::string& api, const char* option) {
    return find(wish,
                [&] { return choose_sound_input(live::sound_inputs(api), wish.text, option); });
}

live::GearChoice find_gear(const AskedEvening& asked) {
    live::GearChoice gear;
    gear.output = output_meant(asked.out);
    if (asked.hears_sound()) {
        const AsGiven sound{behind_sound(asked.in.text), asked.in.name};
        gear.sound = sound_meant(sound, gear.output.api, "--in sound:");
    }
    const auto inputs = [](bool wanted, const AsGiven& wish) {
        return wanted ? live::midi_inputs(before_colon(wish.text)) : live::MidiInputs{};
    };
    auto ports = choose_ports(asked, inputs(asked.listens() && !asked.hears_sound(), asked.in),
                              inputs(!asked.pedal_in.empty(), asked.pedal_in));
    gear.input = std::move(ports.guitar);
    gear.pedal = std::move(ports.pedal);
    gear.stream = {asked.rate, asked.period, std::nullopt};
    return gear;
}

std::optional<time::Seconds> round_trip_on(const practice::SoundPath& open,
                                           const std::optional<practice::KnownRoundTrip>& known) {
    if (!known) return std::nullopt;
    if (known->holds_on(open)) return known->trip;
    say(
        fmt::format("the round trip was measured at {}\n"
                    "and is not used at {}:\n"
                    "the latency that the system tells is taken;\n"
                    "compline calibrate wire measures it anew",
                    in_words(*known->path), in_words(open)));
    return std::nullopt;
}

live::Gear open_gear(const live::GearChoice& choice, const AskedEvening& asked) {
    auto gear = live::open_gear(choice, asked.players);
    const auto& stream = *gear.stream;
    gear.round_trip =
        round_trip_on({stream.rate().hz(), stream.period(), stream.name()}, asked.round_trip);
    return gear;
}

std::string input_name(const AsGiven& wish) {
    if (wish.text == no_input || is_sound(wish.text)) return "";
    try {
        const auto input = choose_input(live::midi_inputs(before_colon(wish.text)), wish.text);
        return input.api + ":" + input.name;
    } catch (const BadInput&) {
        return "";  // whoever opens it says why there is none
    }
}

}  // namespace compline::app
