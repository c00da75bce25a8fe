#include "quiet_stderr.hpp"
#include "reason.hpp"

#include <compline/live/devices.hpp>

#include <RtMidi.h>

#include <exception>

namespace compline::live {

namespace {

/// What we are called in a patch bay, for the moment it takes to look around.
constexpr auto client_name = "compline";

struct Ports {
    std::vector<std::string> names;
    std::string complaint;
};

std::string name_of(RtMidi::Api api) {
    return api == RtMidi::UNIX_JACK ? "JACK" : RtMidi::getApiDisplayName(api);
}

std::string likely_reason(RtMidi::Api api, bool complained) {
    if (!complained) return "no MIDI port to listen to; is the guitar's interface plugged in?";
    switch (api) {
        case RtMidi::UNIX_JACK:
            return "no JACK server is running";
        case RtMidi::LINUX_ALSA:
            return "no MIDI on this machine, or no right to open /dev/snd/seq";
        default:
            return "no MIDI to be had here";
    }
}

void keep_complaint(RtMidiError::Type, const std::string& text, void* complaint) {
    *static_cast<std::string*>(complaint) = text;
}

void list_into(Ports& ports, RtMidi::Api api) {
    RtMidiIn input(api, client_name);
    input.setErrorCallback(&keep_complaint, &ports.complaint);
    const unsigned count = input.getPortCount();
    for (unsigned port = 0; port < count; ++port) ports.names.push_back(input.getPortName(port));
}

Ports list_ports(RtMidi::Api api) {
    Ports ports;
    try {
        list_into(ports, api);
    } catch (const std::exception& e) {  // RtMidiError is one; thrown where /dev/snd/seq is missing
        ports.complaint = e.what();
    }
    return ports;
}

void add_inputs_of(RtMidi::Api api, MidiInputs& inputs) {
    const Ports ports = list_ports(api);
    for (const std::string& name : ports.names) inputs.found.push_back({name_of(api), name});
    if (!ports.names.empty()) return;
    inputs.empty.push_back(
        {name_of(api), reason(likely_reason(api, !ports.complaint.empty()), ports.complaint)});
}

}  // namespace

MidiInputs midi_inputs() {
    std::vector<RtMidi::Api> apis;
    RtMidi::getCompiledApi(apis);
    MidiInputs inputs;
    const QuietStderr quiet;
    for (const RtMidi::Api api : apis) add_inputs_of(api, inputs);
    return inputs;
}

}  // namespace compline::live
