#include "rtmidi_source.hpp"

#include <compline/live/midi_port.hpp>

#ifdef COMPLINE_HAS_JACK
#include "jack_source.hpp"
#endif

namespace compline::live {

MidiPort open_input(const MidiInput& input) {
#ifdef COMPLINE_HAS_JACK
    if (input.api == "JACK") {
        auto source = std::make_unique<JackSource>(input);
        const DeviceClock* clock = source.get();
        return {std::move(source), clock};
    }
#endif
    return {std::make_unique<RtMidiSource>(input), nullptr};
}

}  // namespace compline::live
