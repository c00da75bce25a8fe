#include "quiet_stderr.hpp"
#include "reason.hpp"
#include "rtmidi_apis.hpp"

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

void add_inputs(MidiInputs& inputs, const std::string& api, const Ports& ports,
                const std::string& why_none) {
    for (const std::string& name : ports.names) inputs.found.push_back({api, name});
    if (ports.names.empty()) inputs.empty.push_back({api, reason(why_none, ports.complaint)});
}

void add_inputs_of(RtMidi::Api api, MidiInputs& inputs) {
    const Ports ports = list_ports(api);
    const std::string why_none = likely_reason(api, !ports.complaint.empty());
#ifdef COMPLINE_HAS_JACK
    // The same ports by our own way in: RtMidi gives them JACK's own names.
    if (api == RtMidi::UNIX_JACK) add_inputs(inputs, "JACK", ports, why_none);
    if (api == RtMidi::UNIX_JACK && ports.names.empty()) return;  // said once
#endif
    add_inputs(inputs, name_of(api), ports, why_none);
}

}  // namespace

MidiInputs midi_inputs(std::string_view api) {
    MidiInputs inputs;
    const QuietStderr quiet;
    for (const RtMidi::Api asked : midi_apis(api)) add_inputs_of(asked, inputs);
    return inputs;
}

}  // namespace compline::live
