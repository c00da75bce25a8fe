#include "rtmidi_source.hpp"

#include <compline/live/midi_port.hpp>

#ifdef COMPLINE_HAS_JACK
#include "jack_source.hpp"
#endif

#include <utility>

namespace compline::live {

MidiPort open_input(const MidiInput& input, std::string_view output_api) {
    auto name = input.api + ":" + input.name;
#ifdef COMPLINE_HAS_JACK
    if (input.api == "JACK") {
        const bool one_server = output_api == "JACK";
        auto source = std::make_unique<JackSource>(
            input, one_server ? JackSource::TimedBy::frames : JackSource::TimedBy::moments,
            "compline-guitar");
        const DeviceClock* clock = one_server ? source.get() : nullptr;
        return {std::move(source), clock, std::move(name)};
    }
#endif
    (void)output_api;
    return {std::make_unique<RtMidiSource>(input, "guitar"), nullptr, std::move(name)};
}

MidiPort open_pedal(const MidiInput& input) {
    auto name = input.api + ":" + input.name;
#ifdef COMPLINE_HAS_JACK
    if (input.api == "JACK") {
        return {std::make_unique<JackSource>(input, JackSource::TimedBy::moments, "compline-pedal"),
                nullptr, std::move(name)};
    }
#endif
    return {std::make_unique<RtMidiSource>(input, "pedal"), nullptr, std::move(name)};
}

}  // namespace compline::live
