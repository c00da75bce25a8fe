#include <compline/midi/stream_reader.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

namespace compline::midi {

namespace {

constexpr std::uint8_t first_status = 0x80;
constexpr std::uint8_t first_system = 0xF0;
constexpr std::uint8_t exclusive = 0xF0;
constexpr std::uint8_t undefined_1 = 0xF4;
constexpr std::uint8_t undefined_2 = 0xF5;
constexpr std::uint8_t end_of_exclusive = 0xF7;
constexpr std::uint8_t first_real_time = 0xF8;

/// Of a channel or system common message; 0 where none may follow.
std::uint8_t data_bytes_of(std::uint8_t status) {
    if (status < first_system) return static_cast<std::uint8_t>(Message{status}.data_bytes());
    switch (status) {
        case 0xF1:  // MIDI time code
        case 0xF3:  // song select
            return 1;
        case 0xF2:  // song position
            return 2;
        default:  // tune request, and what is undefined
            return 0;
    }
}

}  // namespace

std::optional<Message> StreamReader::push(std::uint8_t byte) noexcept {
    if (byte >= first_real_time) return std::nullopt;
    if (byte < first_status) return take_data(byte);
    begin(byte);
    return std::nullopt;
}

void StreamReader::begin(std::uint8_t status) noexcept {
    const bool ends_exclusive = status == end_of_exclusive && status_ == exclusive;
    const bool is_stray =
        status == undefined_1 || status == undefined_2 || status == end_of_exclusive;
    break_off();
    if (is_stray && !ends_exclusive) ++unreadable_.stray_bytes;
    data_left_ = data_bytes_of(status);
    // What no data follows is over already.
    const bool goes_on = data_left_ > 0 || status == exclusive;
    status_ = goes_on ? status : std::uint8_t{0};
    under_way_ = goes_on ? 1 : 0;
}

/// System exclusive may end like this.
void StreamReader::break_off() noexcept {
    if (!is_under_way() || status_ == exclusive) return;
    ++unreadable_.broken_messages;
    unreadable_.broken_bytes += under_way_;
}

std::optional<Message> StreamReader::take_data(std::uint8_t byte) noexcept {
    if (status_ == exclusive) return std::nullopt;
    if (status_ == 0) {
        ++unreadable_.stray_bytes;
        return std::nullopt;
    }
    if (data_left_ == 2) first_data_ = byte;
    ++under_way_;
    if (--data_left_ > 0) return std::nullopt;
    under_way_ = 0;
    if (status_ >= first_system) {
        status_ = 0;
        return std::nullopt;
    }
    data_left_ = data_bytes_of(status_);
    if (data_left_ == 1) return Message{status_, byte, 0};
    return Message{status_, first_data_, byte};
}

namespace {

[[noreturn]] void refuse_bytes(std::size_t offset, const std::string& found,
                               const std::string& expected) {
    throw text::bad_byte(offset, "found " + found, "expected " + expected);
}

/// In the state before the byte that does not fit.
std::string expected_by(const StreamReader& reader) {
    if (reader.status() == exclusive) return "the end of system exclusive (0xF7)";
    return fmt::format("a data byte (0x00 to 0x7F) of message 0x{:02X}", reader.status());
}

[[noreturn]] void refuse_byte(std::size_t offset, std::uint8_t byte, const StreamReader& before) {
    if (before.is_under_way() && before.status() != exclusive) {
        refuse_bytes(offset, fmt::format("status byte 0x{:02X}", byte), expected_by(before));
    }
    if (byte < first_status) {
        refuse_bytes(offset, fmt::format("data byte 0x{:02X}", byte),
                     "a status byte (0x80 or more): no running status here");
    }
    if (byte == end_of_exclusive) {
        refuse_bytes(offset, "the end of system exclusive (0xF7)",
                     "its beginning (0xF0) before it");
    }
    refuse_bytes(offset, fmt::format("status byte 0x{:02X}", byte), "one that MIDI 1.0 defines");
}

}  // namespace

std::vector<Message> read_stream(std::span<const std::uint8_t> bytes) {
    std::vector<Message> messages;
    StreamReader reader;
    for (std::size_t at = 0; at < bytes.size(); ++at) {
        const StreamReader before = reader;
        const auto message = reader.push(bytes[at]);
        if (reader.unreadable() != before.unreadable()) refuse_byte(at, bytes[at], before);
        if (message) messages.push_back(*message);
    }
    if (reader.is_under_way())
        refuse_bytes(bytes.size(), "the end of the data", expected_by(reader));
    return messages;
}

}  // namespace compline::midi
