#include "track_reader.hpp"

#include "smf_rules.hpp"

#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::midi {

namespace {

constexpr std::uint8_t exclusive_start = 0xF0;
constexpr std::uint8_t exclusive_more = 0xF7;
constexpr std::uint8_t meta_start = 0xFF;

void check_meta(const MetaEvent& event, std::size_t length_at) {
    const auto length = fmt::format("a length of {}", event.data.size());
    if (event.type == meta::end_of_track && !event.data.empty()) {
        refuse(length_at, length, "0 in an end-of-track event");
    }
    if (event.type != meta::tempo) return;
    if (event.data.size() != 3) refuse(length_at, length, "3 in a tempo event");
    if (microseconds_a_quarter(event) == 0) {
        refuse(length_at + 1, "a tempo of 0 microseconds a quarter note", "1 to 16,777,215");
    }
}

}  // namespace

void refuse(std::size_t offset, const std::string& found, const std::string& expected) {
    throw text::bad_byte(offset, "found " + found, "expected " + expected);
}

bool TrackReader::read_all() {
    try {
        while (read_event()) {
        }
        return true;
    } catch (const OutOfBytes&) {
        return false;
    }
}

/// False for the end of the track. Nothing is kept of an event that throws.
bool TrackReader::read_event() {
    const std::int64_t tick = read_tick();
    Event event = read_body();
    whole_until_ = bytes_.position();
    track_.end = tick;
    const auto* meta = std::get_if<MetaEvent>(&event);
    if (meta != nullptr && meta->type == meta::end_of_track) return false;
    track_.add(tick, std::move(event));
    return true;
}

std::int64_t TrackReader::read_tick() {
    const std::size_t at = bytes_.position();
    const std::int64_t tick = track_.end + read_quantity();
    if (tick > max_tick) {
        refuse(at, fmt::format("an event at tick {}", tick),
               fmt::format("at most {} ticks", max_tick));
    }
    return tick;
}

Event TrackReader::read_body() {
    const std::uint8_t status = bytes_.peek();
    if (status < exclusive_start) return read_message();
    running_status_ = 0;
    if (status == meta_start) return read_meta();
    if (status == exclusive_start || status == exclusive_more) return read_exclusive();
    refuse(bytes_.position(), fmt::format("system message 0x{:02X}", status),
           "a channel message, a meta event (0xFF) or system exclusive (0xF0, 0xF7)");
}

Message TrackReader::read_message() {
    if (bytes_.peek() >= 0x80) {
        running_status_ = bytes_.byte();
    } else if (running_status_ == 0) {
        refuse(bytes_.position(), fmt::format("data byte 0x{:02X}", bytes_.peek()),
               "a status byte (0x80 or more): no running status here");
    }
    Message message{running_status_, read_data_byte(), 0};
    if (message.data_bytes() == 2) message.data2 = read_data_byte();
    return message;
}

MetaEvent TrackReader::read_meta() {
    bytes_.byte();
    const std::size_t type_at = bytes_.position();
    MetaEvent event{bytes_.byte(), {}};
    if (event.type >= 0x80) {
        refuse(type_at, fmt::format("meta event type 0x{:02X}", event.type), "0x00 to 0x7F");
    }
    const std::size_t length_at = bytes_.position();
    const auto data = bytes_.take(read_quantity());
    event.data.assign(data.begin(), data.end());
    check_meta(event, length_at);
    return event;
}

SystemExclusive TrackReader::read_exclusive() {
    SystemExclusive event{{bytes_.byte()}};
    const auto data = bytes_.take(read_quantity());
    event.bytes.insert(event.bytes.end(), data.begin(), data.end());
    return event;
}

std::uint8_t TrackReader::read_data_byte() {
    const std::uint8_t byte = bytes_.byte();
    if (byte < 0x80) return byte;
    refuse(bytes_.position() - 1, fmt::format("0x{:02X}", byte),
           fmt::format("a data byte (0x00 to 0x7F) of message 0x{:02X}", running_status_));
}

/// Seven bits a byte, the highest first; all but the last byte have the top bit set (SMF 1.0).
std::uint32_t TrackReader::read_quantity() {
    const std::size_t at = bytes_.position();
    std::uint32_t value = 0;
    for (int count = 0; count < 4; ++count) {
        const std::uint8_t byte = bytes_.byte();
        value = (value << 7U) | (byte & 0x7FU);
        if (byte < 0x80) return value;
    }
    refuse(at, "a variable-length quantity of more than 4 bytes", "at most 4");
}

}  // namespace compline::midi
