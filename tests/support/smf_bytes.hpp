#pragma once

#include <compline/midi/smf.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::tests {

using Bytes = std::vector<std::uint8_t>;

/// "4D 54 68 64" -> bytes; spaces are free.
Bytes hex(const std::string& digits);

/// Text, such as a chunk's name.
Bytes ascii(const std::string& text);

Bytes operator+(Bytes a, const Bytes& b);

/// "MThd", length 6 and the three fields.
Bytes header(int format, int tracks, int division);

/// "MTrk", the body's length (or another one) and the body.
Bytes track(const Bytes& body, std::optional<std::uint32_t> length = std::nullopt);

/// The file of one track with this body, 96 ticks a quarter; its events start at byte 22.
Bytes one_track(const std::string& body_digits);

/// A valid file of any format, division and kinds of event; the same for the same seed.
midi::File random_file(std::uint32_t seed);

/// Channel messages with a tick, in file order.
struct TickedMessage {
    std::int64_t tick;
    midi::Message message;
    bool operator==(const TickedMessage&) const = default;
};
std::vector<TickedMessage> messages_of(const midi::Track& track);

}  // namespace compline::tests
