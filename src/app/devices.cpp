#include "accidentals.hpp"
#include "command.hpp"
#include "kept_delays.hpp"
#include "settings_file.hpp"

#include <compline/live/devices.hpp>
#include <compline/live/real_time.hpp>

#include <fmt/format.h>

#include <string>

namespace compline::app {

namespace {

/// Outputs, or inputs of sound.
template <typename Devices>
void print_sound(const char* title, const Devices& devices) {
    fmt::print("{}\n", title);
    for (const auto& device : devices.found) {
        fmt::print("  {}: {}, {} channel{}{}{}\n", device.api, device.name, device.channels,
                   device.channels == 1 ? "" : "s",
                   device.rate ? fmt::format(", {} Hz", device.rate->hz()) : "",
                   device.is_default ? ", default" : "");
    }
    if (devices.found.empty()) fmt::print("  none\n");
    for (const auto& api : devices.empty) fmt::print("  {}: {}\n", api.api, api.reason);
}

void print_inputs(const live::MidiInputs& inputs) {
    fmt::print("MIDI inputs\n");
    for (const auto& input : inputs.found) fmt::print("  {}: {}\n", input.api, input.name);
    if (inputs.found.empty()) fmt::print("  none\n");
    for (const auto& api : inputs.empty) fmt::print("  {}: {}\n", api.api, api.reason);
}

/// How a player gets it: the limits of the group audio, as Debian's JACK packages set them.
void print_priority() {
    fmt::print("Real-time priority\n");
    if (live::real_time_priority()) {
        fmt::print("  granted: no other program makes the band wait\n");
    } else {
        fmt::print(
            "  not granted: on a busy machine the band may stutter. To get it, put the line\n"
            "  \"@audio - rtprio 95\" into /etc/security/limits.d/audio.conf and yourself into\n"
            "  the group audio (sudo adduser YOUR-NAME audio), and log in again\n");
    }
    fmt::print("  (through JACK: with the priority that its server was started with)\n");
}

}  // namespace

ProgramCommand devices_command() {
    return {
        "devices", "List outputs, inputs of sound and MIDI, and the delays that are kept", {}, [] {
            print_sound("Audio outputs", live::audio_outputs());
            print_sound("Sound inputs", live::sound_inputs());
            print_inputs(live::midi_inputs());
            print_priority();
            print_words(kept_delays(load_settings(settings_keys(all_commands()))));
            return Status::done;
        }};
}

}  // namespace compline::app
