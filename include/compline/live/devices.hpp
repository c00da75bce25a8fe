#pragma once

#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::live {

// What this machine offers: outputs to play the band through, and inputs, of MIDI and of sound, to
// hear the guitar from. Every API that the device libraries were built with is asked (JACK,
// PulseAudio, ALSA); one that has nothing says why. A machine without any device is an answer, not
// an error.
//
// Devices are known by API and name. Their numbers inside the libraries change when a cable is
// pulled, so none is handed out.

struct AudioOutput {
    std::string api;  ///< "JACK", "PulseAudio", "ALSA"
    std::string name;
    int channels = 0;  ///< what it can play at once; 1 or more
    /// The rate it runs at, or would be opened with; none where the API cannot tell.
    std::optional<time::SampleRate> rate;
    bool is_default = false;  ///< the one its API would take; at most one an API
};

/// Where sound comes in. What is heard is one of its channels, or all of them together.
struct SoundInput {
    std::string api;
    std::string name;
    int channels = 0;  ///< 1 or more
    std::optional<time::SampleRate> rate;
    bool is_default = false;
    std::optional<int> channel = {};  ///< from 1; none: all
};

/// "sound:JACK:system/2": as a player may name it.
[[nodiscard]] std::string in_words(const SoundInput& input);
/// What stands before it, where MIDI might be meant.
inline constexpr const char* sound_prefix = "sound:";

/// JACK's ports through RtMidi, which tells when a message came only to the period. "JACK" itself
/// is a port of our own, exact to the frame, where libjack was there to build with.
inline constexpr const char* coarse_jack = "RtMidi/JACK";

struct MidiInput {
    std::string api;  ///< "ALSA", "JACK", "RtMidi/JACK"
    std::string name;
};

/// An API without devices, and why as far as it can be known, in words for the player.
struct EmptyApi {
    std::string api;
    std::string reason;
};

struct AudioOutputs {
    std::vector<AudioOutput> found;
    std::vector<EmptyApi> empty;
};

struct SoundInputs {
    std::vector<SoundInput> found;
    std::vector<EmptyApi> empty;
};

struct MidiInputs {
    std::vector<MidiInput> found;
    std::vector<EmptyApi> empty;
};

/// Asks every API. No error of a library comes through as an exception: it becomes that API's
/// reason. What the libraries print on stderr meanwhile is dropped, so call this while no other
/// thread has something to say there.
/// api: ask that one alone, in whatever case; empty, or none that there is: all.
/// Threads: main only. Real-time: no; it may take a second.
[[nodiscard]] AudioOutputs audio_outputs(std::string_view api = "");
[[nodiscard]] SoundInputs sound_inputs(std::string_view api = "");
[[nodiscard]] MidiInputs midi_inputs(std::string_view api = "");

}  // namespace compline::live
