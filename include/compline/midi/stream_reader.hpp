#pragma once

#include <compline/midi/message.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <type_traits>
#include <vector>

namespace compline::midi {

// MIDI 1.0 as it comes over a cable: bytes, of which the channel messages are wanted. Rules from
// the MIDI 1.0 Detailed Specification (MIDI Association), from memory:
//
// - A byte of 0x80 or more is a status and begins a message; the data bytes behind it are below.
// - Running status: data bytes that follow a whole channel message make another of the same status.
//   System common messages and system exclusive cancel that, real-time messages do not.
// - Real-time messages (0xF8 to 0xFF) are one byte and may stand anywhere, also inside a message.
//   They are passed over, also those that MIDI 1.0 leaves undefined (0xF9, 0xFD).
// - System exclusive (0xF0) is passed over, however long. 0xF7 ends it, or any status that is not
//   real-time.
// - System common messages (0xF1 to 0xF6) are passed over with their data bytes.

/// What made no message, counted so that nothing is lost unseen. The bytes of system messages are
/// not among it: those are whole, only not wanted.
struct Unreadable {
    /// Bytes that belong to no message: data without a status, statuses that MIDI 1.0 leaves
    /// undefined (0xF4, 0xF5), an end of system exclusive (0xF7) where none had begun.
    std::uint64_t stray_bytes = 0;
    std::uint64_t broken_messages = 0;  ///< broken off by another status,
    std::uint64_t broken_bytes = 0;     ///< and how many bytes they had until then

    [[nodiscard]] std::uint64_t bytes() const noexcept { return stray_bytes + broken_bytes; }
    bool operator==(const Unreadable&) const = default;
};

/// Takes a stream byte by byte. Whatever comes, it finds back at the next status byte. How the
/// bytes are cut into packets does not matter: a message may come in pieces.
///
/// Threads: one. Real-time: yes.
class StreamReader {
  public:
    /// The next byte; the channel message that it completes, if it does.
    std::optional<Message> push(std::uint8_t byte) noexcept;

    [[nodiscard]] const Unreadable& unreadable() const noexcept { return unreadable_; }

    /// The status of the message that is under way, or that a data byte would begin again (running
    /// status); 0: neither, a data byte would be stray.
    [[nodiscard]] std::uint8_t status() const noexcept { return status_; }
    /// A message has begun and is not complete (it may be system exclusive).
    [[nodiscard]] bool is_under_way() const noexcept { return under_way_ > 0; }

  private:
    void begin(std::uint8_t status) noexcept;
    void break_off() noexcept;
    std::optional<Message> take_data(std::uint8_t byte) noexcept;

    Unreadable unreadable_;
    std::uint8_t status_ = 0;
    std::uint8_t first_data_ = 0;
    std::uint8_t data_left_ = 0;  ///< until the message is complete
    std::uint8_t under_way_ = 0;  ///< its bytes so far, without a status that was not sent again
};
static_assert(std::is_trivially_copyable_v<StreamReader>);

/// The channel messages of a stream that is there as a whole and has to be flawless: whatever
/// StreamReader would count as unreadable throws text::BadInput with its byte, and so does an
/// unfinished message at the end.
[[nodiscard]] std::vector<Message> read_stream(std::span<const std::uint8_t> bytes);

}  // namespace compline::midi
