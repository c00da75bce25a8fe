#include "command.hpp"

#include <compline/live/devices.hpp>

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

}  // namespace

ProgramCommand devices_command() {
    return {"devices", "List audio outputs and MIDI inputs", {}, [] {
                print_outputs(live::audio_outputs());
                print_inputs(live::midi_inputs());
                return Status::done;
            }};
}

}  // namespace compline::app
