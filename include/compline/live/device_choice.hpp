#pragma once

#include <compline/live/devices.hpp>
#include <compline/text/bad_input.hpp>

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace compline::live {

// A device by what a player types: [API:]PART, part of its name in whatever case. One device must
// be meant; none or several is an error that lists what there is.

/// There is nothing to choose from, or a device cannot be opened.
class DeviceError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Why there is nothing: each API's own reason, in a line that begins with a line feed.
[[nodiscard]] std::string reasons(const std::vector<EmptyApi>& empty);

/// What was typed: the API (none: any) and the part of a name (may be empty).
struct DeviceWish {
    std::optional<std::string> api;
    std::string part;
};
/// Before the first colon stands an API if it is one of `apis`; names of JACK ports have colons
/// too.
[[nodiscard]] DeviceWish read_wish(std::string_view text, const std::vector<std::string>& apis);

/// The output that is meant; without a wish the default one of the first API that has any, which
/// are asked in the order of the list. Throws text::BadInput, DeviceError.
[[nodiscard]] AudioOutput choose_output(const AudioOutputs& outputs, std::string_view wish);

/// The input that is meant. A way into JACK that knows times to the period only ("RtMidi/JACK") is
/// taken only when its API is named. Without a wish the only one there is, not counting ALSA's
/// "Midi Through", from which nothing comes by itself, nor JACK's ports while the system has others
/// (JACK shows those again). Throws text::BadInput, DeviceError.
[[nodiscard]] MidiInput choose_input(const MidiInputs& inputs, std::string_view wish);

/// The input of sound that is meant: [API:]PART, and behind a slash the channel, from 1, where it
/// is not all of them; without a wish the default one, else the first. `option`: what the wish was
/// said by. Throws text::BadInput, DeviceError.
[[nodiscard]] SoundInput choose_sound_input(const SoundInputs& inputs, std::string_view wish,
                                            const char* option);

/// The input that a pedal comes by: as choose_input, but one has to be named.
[[nodiscard]] MidiInput choose_pedal(const MidiInputs& inputs, std::string_view wish);

}  // namespace compline::live
