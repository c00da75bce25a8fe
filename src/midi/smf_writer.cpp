#include "smf_rules.hpp"

#include <compline/midi/smf.hpp>

#include <fmt/format.h>

#include <stdexcept>

namespace compline::midi {

namespace {

using Bytes = std::vector<std::uint8_t>;

void require(bool fine, std::string_view rule) {
    if (!fine) throw std::invalid_argument(std::string(rule));
}

constexpr std::size_t unset_length = 0xFFFFFFFF;

void put_number(Bytes& out, std::size_t value, int bytes) {
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8) {
        out.push_back(static_cast<std::uint8_t>(value >> static_cast<unsigned>(shift)));
    }
}

void put_name(Bytes& out, std::string_view name) {
    out.insert(out.end(), name.begin(), name.end());
}

/// Seven bits a byte, the highest first; all but the last byte have the top bit set (SMF 1.0).
void put_quantity(Bytes& out, std::uint32_t value) {
    for (unsigned shift = 21; shift > 0; shift -= 7) {
        if (value >> shift == 0) continue;
        out.push_back(static_cast<std::uint8_t>(0x80U | ((value >> shift) & 0x7FU)));
    }
    out.push_back(static_cast<std::uint8_t>(value & 0x7FU));
}

void put_length(Bytes& out, std::size_t length) {
    require(length <= max_quantity, "an event holds at most 268,435,455 bytes");
    put_quantity(out, static_cast<std::uint32_t>(length));
}

void put_delta(Bytes& out, std::int64_t from, std::int64_t to) {
    require(to >= from, "events stand in the order of their ticks, from 0");
    require(to <= max_tick, "a tick is at most 2^40");
    require(to - from <= max_quantity, "two events are at most 268,435,455 ticks apart");
    put_quantity(out, static_cast<std::uint32_t>(to - from));
}

void put(Bytes& out, const Message& message) {
    require(message.status >= 0x80 && message.status < 0xF0,
            "a message has a status from 0x80 to 0xEF");
    require(message.data1 < 0x80 && message.data2 < 0x80, "data bytes are 0 to 127");
    out.push_back(message.status);
    out.push_back(message.data1);
    if (message.data_bytes() == 2) {
        out.push_back(message.data2);
    } else {
        require(message.data2 == 0, "a message with one data byte has a second of 0");
    }
}

void put(Bytes& out, const MetaEvent& event) {
    require(event.type < 0x80, "a meta event has a type from 0x00 to 0x7F");
    require(event.type != meta::end_of_track, "the end of a track is its `end`, not an event");
    require(event.type != meta::tempo || microseconds_a_quarter(event) > 0,
            "a tempo event holds three bytes, not all of them 0");
    out.push_back(0xFF);
    out.push_back(event.type);
    put_length(out, event.data.size());
    out.insert(out.end(), event.data.begin(), event.data.end());
}

void put(Bytes& out, const SystemExclusive& event) {
    require(!event.bytes.empty() && (event.bytes[0] == 0xF0 || event.bytes[0] == 0xF7),
            "system exclusive starts with 0xF0 or 0xF7");
    out.push_back(event.bytes[0]);
    put_length(out, event.bytes.size() - 1);
    out.insert(out.end(), event.bytes.begin() + 1, event.bytes.end());
}

void put_event(Bytes& out, std::int64_t from, const TrackEvent& event) {
    put_delta(out, from, event.tick);
    std::visit([&out](const auto& kind) { put(out, kind); }, event.event);
}

/// The tick it comes to.
std::int64_t put_events(Bytes& out, const Track& track) {
    std::int64_t tick = 0;
    for (std::size_t i = 0; i < track.events.size(); ++i) {
        try {
            put_event(out, tick, track.events[i]);
        } catch (const std::invalid_argument& error) {
            throw std::invalid_argument(fmt::format("event {}: {}", i + 1, error.what()));
        }
        tick = track.events[i].tick;
    }
    return tick;
}

Bytes track_body(const Track& track) {
    Bytes out;
    const std::int64_t tick = put_events(out, track);
    require(track.end >= tick, "the end of a track is not before its last event");
    put_delta(out, tick, track.end);
    out.insert(out.end(), {0xFF, meta::end_of_track, 0x00});
    require(out.size() < unset_length, "a track holds less than 4 GiB");
    return out;
}

void put_track(Bytes& out, const File& file, std::size_t index) {
    try {
        const Bytes body = track_body(file.tracks[index]);
        put_name(out, "MTrk");
        put_number(out, body.size(), 4);
        out.insert(out.end(), body.begin(), body.end());
    } catch (const std::invalid_argument& error) {
        throw std::invalid_argument(fmt::format("track {}: {}", index + 1, error.what()));
    }
}

void put_header(Bytes& out, const File& file) {
    require(file.format >= 0 && file.format <= 2, "the format is 0, 1 or 2");
    require(!file.tracks.empty() && file.tracks.size() <= 0xFFFF, "a file has 1 to 65,535 tracks");
    require(file.format != 0 || file.tracks.size() == 1, "format 0 has one track");
    require(division_is_valid(file.division, file.frames_per_second),
            "the division is 1 to 32767 ticks a quarter, or 1 to 255 ticks a frame of 24, 25, 29 "
            "or 30 a second");
    put_name(out, "MThd");
    put_number(out, 6, 4);
    put_number(out, static_cast<std::size_t>(file.format), 2);
    put_number(out, file.tracks.size(), 2);
    const int smpte = file.frames_per_second == 0 ? 0 : (256 - file.frames_per_second) * 256;
    put_number(out, static_cast<std::size_t>(smpte) + static_cast<std::size_t>(file.division), 2);
}

}  // namespace

std::vector<std::uint8_t> write_smf(const File& file) {
    Bytes out;
    put_header(out, file);
    for (std::size_t i = 0; i < file.tracks.size(); ++i) put_track(out, file, i);
    return out;
}

std::vector<std::uint8_t> open_smf(const File& file) {
    Bytes out;
    put_header(out, file);
    const std::size_t last = file.tracks.size() - 1;
    for (std::size_t i = 0; i < last; ++i) put_track(out, file, i);
    put_name(out, "MTrk");
    put_number(out, unset_length, 4);
    (void)put_events(out, file.tracks[last]);
    return out;
}

std::vector<std::uint8_t> event_bytes(std::int64_t from, const TrackEvent& event) {
    Bytes out;
    put_event(out, from, event);
    return out;
}

}  // namespace compline::midi
