#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/live/devices.hpp>
#include <compline/live/playback.hpp>

#include <memory>
#include <string>
#include <string_view>

namespace compline::live {

/// An open MIDI input, for its whole session: a source whose cable is pulled and put back is the
/// same object, since the audio thread reads its clock. With `clock`, its messages are timed at
/// frames of that clock, which the playback of the same session must be given.
struct MidiPort {
    std::unique_ptr<listen::MidiSource> source;
    const DeviceClock* clock = nullptr;  ///< part of `source`; none: it needs none
    std::string name;                    ///< API and name, as the player is told
};

/// Opens an input. output_api: where the band is played; frames that JACK counts mean something
/// only to a stream on JACK, elsewhere its port gives moments. What comes is taken by a thread of
/// the library's and waits in a queue until it is read. Throws DeviceError.
///
/// RtMidi's times: the moment of arrival for "RtMidi/JACK" (within a cycle); elsewhere the
/// system's own stamps, which the library passes on as differences. "JACK": a port of our own,
/// whose events carry their frame. Threads: main only; read() of the source: one reader.
///
/// A port that goes (its cable is pulled, its program ends) is waited for, and taken up again when
/// one of its name is there: ALSA's numbers behind a name may be others then, but a second unit of
/// the same name that was there all the time is not taken for it. A connection that somebody undoes
/// on a JACK server while the port is there is waited for too, and not made again against his will;
/// through RtMidi that cannot be seen.
[[nodiscard]] MidiPort open_input(const MidiInput& input, std::string_view output_api);

/// The same for a pedal's own port: moments will do for a foot, and so it asks nothing of the
/// stream.
[[nodiscard]] MidiPort open_pedal(const MidiInput& input);

}  // namespace compline::live
