#pragma once

#include <compline/band/band.hpp>
#include <compline/live/audio_stream.hpp>
#include <compline/live/devices.hpp>
#include <compline/live/midi_port.hpp>
#include <compline/live/sound_ear.hpp>
#include <compline/sound/bank.hpp>
#include <compline/text/bad_input.hpp>

#include <memory>
#include <optional>

namespace compline::live {

/// The devices of a session, as they were chosen.
struct GearChoice {
    AudioOutput output;
    std::optional<MidiInput> input;  ///< none: nobody is listened to
    std::optional<MidiInput> pedal;  ///< by a port of its own; none: there is none such
    /// Where the guitar's sound comes in: in place of its MIDI, or beside it.
    std::optional<SoundInput> sound = {};
    AudioStream::Request stream;
};

/// The same, opened: what a rig is plugged together of.
struct Gear {
    MidiPort port;                  ///< without a source nobody is listened to
    MidiPort pedal;                 ///< without a source there is none with a port of its own
    std::unique_ptr<SoundEar> ear;  ///< none: no sound is heard
    std::unique_ptr<AudioStream> stream;
    std::shared_ptr<const sound::Bank> bank;  ///< at the rate of the stream
    /// Measured on this output; none: what the system tells of its latency is taken.
    std::optional<time::Seconds> round_trip = {};
};

/// Opens the input, then the output; the sounds that the players need, which take as long, are made
/// meanwhile. Sound without MIDI is the guitar's port: see SoundSource. Throws DeviceError,
/// text::BadInput (see open_input, open_output).
///
/// Threads: main only.
[[nodiscard]] Gear open_gear(const GearChoice& choice, const band::Players& players);

}  // namespace compline::live
