#pragma once

#include <compline/midi/message.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <string>
#include <type_traits>
#include <vector>

namespace compline::listen {

/// A MIDI message as it came, with what its source knows of when. How good that is differs much
/// from API to API; time::ClockMap makes stream times of all three.
struct Arrival {
    enum class Timing : std::uint8_t {
        at_a_moment,        ///< `moment`: when it happened
        in_a_cycle,         ///< `moment`: when the audio cycle began in which it was handed over
        at_a_device_frame,  ///< `device_frame`: exact
        at_a_stream_frame,  ///< `stream_frame`: found in the sound that the stream heard
    };
    midi::Message message;
    Timing timing = Timing::at_a_moment;
    time::Instant moment;
    std::uint32_t device_frame = 0;
    time::Frames stream_frame = time::Frames(0);
};
static_assert(std::is_trivially_copyable_v<Arrival>);

/// Where MIDI comes from: a port, or a script. Messages are collected by some thread of the
/// library's and handed over here.
class MidiSource {
  public:
    MidiSource() = default;
    virtual ~MidiSource() = default;
    MidiSource(const MidiSource&) = delete;
    MidiSource& operator=(const MidiSource&) = delete;

    /// What came since the last call, in order, put behind what is in `into`.
    virtual void read(std::vector<Arrival>& into) = 0;

    /// Messages that found no room.
    [[nodiscard]] virtual std::uint64_t dropped() const = 0;

    /// Bytes that came and made no message: rubbish, and what is left of messages broken off.
    [[nodiscard]] virtual std::uint64_t unreadable() const = 0;

    /// Why nothing comes, in words for the player; empty while all is well. Asking is also what
    /// takes a port up again that was away and is back under its name. Not to be asked more often
    /// than a few times a second.
    [[nodiscard]] virtual std::string trouble() = 0;
};

}  // namespace compline::listen
