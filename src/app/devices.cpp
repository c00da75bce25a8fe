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

void print_outputs(const live::AudioOutputs& outputs) {
    fmt::print("Audio outputs\n");
    for (const auto& output : outputs.found) {
        fmt::print("  {}: {}, {} channels{}{}\n", output.api, output.name, output.channels,
                   output.rate ? fmt::format(", {} Hz", output.rate->hz()) : "",
                   output.is_default ? ", default" : "");
    }
    if (outputs.found.empty()) fmt::print("  none\n");
    for (const auto& api : outputs.empty) fmt::print("  {}: {}\n", api.api, api.reason);
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
    return {"devices", "List audio outputs and MIDI inputs, and the delays that are kept", {}, [] {
                print_outputs(live::audio_outputs());
                print_inputs(live::midi_inputs());
                print_priority();
                print_words(kept_delays(load_settings(settings_keys(all_commands()))));
                return Status::done;
            }};
}

}  // namespace compline::app
