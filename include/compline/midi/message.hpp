#pragma once

#include <compline/time/units.hpp>

#include <cstdint>
#include <vector>

namespace compline::midi {

/// A channel voice message of MIDI 1.0, three bytes at most; trivially copyable, so that it fits
/// a real-time queue. Channels are numbered 1 to 16 as musicians do.
struct Message {
    std::uint8_t status = 0;  ///< 0x80 to 0xEF
    std::uint8_t data1 = 0;   ///< 0 to 127
    std::uint8_t data2 = 0;   ///< 0 to 127; 0 where the kind has one data byte

    enum class Kind : std::uint8_t {
        note_off = 0x80,
        note_on = 0x90,
        key_pressure = 0xA0,
        control_change = 0xB0,
        program_change = 0xC0,
        channel_pressure = 0xD0,
        pitch_bend = 0xE0,
    };

    [[nodiscard]] Kind kind() const { return static_cast<Kind>(status & 0xF0); }
    [[nodiscard]] int channel() const { return (status & 0x0F) + 1; }
    /// A note-on with velocity 0 is a note-off (MIDI 1.0).
    [[nodiscard]] bool starts_note() const { return kind() == Kind::note_on && data2 > 0; }
    [[nodiscard]] bool ends_note() const {
        return kind() == Kind::note_off || (kind() == Kind::note_on && data2 == 0);
    }
    /// Pitch bend, -8192 to 8191.
    [[nodiscard]] int bend() const { return ((data2 << 7) | data1) - 8192; }
    /// Part of a registered parameter's setting (MIDI 1.0: data entry 6 and 38, RPN 100 and 101).
    [[nodiscard]] bool sets_parameter() const {
        if (kind() != Kind::control_change) return false;
        return data1 == 6 || data1 == 38 || data1 == 100 || data1 == 101;
    }
    /// Data bytes that follow the status: 1 or 2.
    [[nodiscard]] int data_bytes() const {
        return kind() == Kind::program_change || kind() == Kind::channel_pressure ? 1 : 2;
    }
    bool operator==(const Message&) const = default;
};

// Channel 1 to 16; note, velocity, controller, value and program 0 to 127 (programs count from 0
// as on the wire: the acoustic bass, number 33 in General MIDI's table, is 32); bend -8192 to 8191.
// Other numbers are a mistake of the caller (asserted). Nothing here allocates or throws.
[[nodiscard]] Message note_on(int channel, int note, int velocity);
[[nodiscard]] Message note_off(int channel, int note, int velocity = 0);
[[nodiscard]] Message pitch_bend(int channel, int value);
[[nodiscard]] Message control_change(int channel, int controller, int value);
[[nodiscard]] Message program_change(int channel, int program);

/// A message and when it came.
struct TimedMessage {
    time::Seconds at;
    Message message;
};

}  // namespace compline::midi
