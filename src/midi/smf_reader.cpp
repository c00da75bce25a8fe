#include "byte_reader.hpp"
#include "smf_rules.hpp"
#include "track_reader.hpp"

#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::midi {

namespace {

constexpr std::string_view header_name = "MThd";
constexpr std::string_view track_name = "MTrk";
constexpr std::size_t chunk_start_bytes = 8;
constexpr std::size_t header_body_bytes = 6;

bool is_printable(const std::string& name) {
    return std::all_of(name.begin(), name.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

std::string shown(const std::string& name) {
    if (is_printable(name)) return fmt::format("\"{}\"", name);
    std::string bytes = "bytes";
    for (const char c : name) bytes += fmt::format(" {:02X}", static_cast<std::uint8_t>(c));
    return bytes;
}

/// Name and length that precede the body of a chunk.
struct ChunkStart {
    std::size_t at;
    std::string name;
    std::uint32_t length;

    [[nodiscard]] std::size_t body() const { return at + chunk_start_bytes; }
    [[nodiscard]] bool is_track() const { return name == track_name; }
};

class SmfReader {
  public:
    explicit SmfReader(std::span<const std::uint8_t> bytes) : bytes_(bytes) {}

    ReadFile read() {
        read_header();
        while (result_.file.tracks.size() < tracks_announced_ && !result_.cut_at) read_chunk();
        if (!result_.cut_at) check_rest();
        return std::move(result_);
    }

  private:
    [[nodiscard]] std::size_t left() const { return bytes_.size() - at_; }
    [[nodiscard]] bool fits(const ChunkStart& chunk) const {
        return chunk.length <= bytes_.size() - chunk.body();
    }
    [[nodiscard]] ChunkStart chunk_start() const;

    void read_header();
    void read_header_body(std::size_t body);
    void read_division(std::size_t at, std::uint32_t raw);
    void read_chunk();
    void read_track(const ChunkStart& chunk);
    void end_whole_track(const ChunkStart& chunk, std::size_t after);
    void end_broken_track(const ChunkStart& chunk, std::size_t whole_until);
    [[nodiscard]] bool length_is_unset(const ChunkStart& chunk) const;
    void data_ended(const std::string& found);
    void check_rest();

    std::span<const std::uint8_t> bytes_;
    std::size_t at_ = 0;
    std::size_t tracks_announced_ = 0;
    ReadFile result_;
};

ChunkStart SmfReader::chunk_start() const {
    ByteReader reader(bytes_, at_, bytes_.size());
    const auto name = reader.take(4);
    return {at_, std::string(name.begin(), name.end()), reader.number(4)};
}

void SmfReader::read_header() {
    const auto start = bytes_.first(std::min(bytes_.size(), header_name.size()));
    if (!std::equal(start.begin(), start.end(), header_name.begin())) {
        refuse(0, shown(std::string(start.begin(), start.end())),
               "\"MThd\", the start of a Standard MIDI File");
    }
    if (left() < chunk_start_bytes + header_body_bytes) {
        refuse(bytes_.size(), fmt::format("the end of the data after {} bytes", bytes_.size()),
               "a header chunk (\"MThd\") of 14 bytes");
    }
    const ChunkStart chunk = chunk_start();
    const auto length = fmt::format("a header of {} bytes", chunk.length);
    if (chunk.length < header_body_bytes) refuse(4, length, "at least 6");
    if (!fits(chunk)) {
        refuse(4, length, fmt::format("at most the {} that follow", bytes_.size() - chunk.body()));
    }
    read_header_body(chunk.body());
    at_ = chunk.body() + chunk.length;
}

void SmfReader::read_header_body(std::size_t body) {
    ByteReader reader(bytes_, body, bytes_.size());
    const std::uint32_t format = reader.number(2);
    if (format > 2) refuse(body, fmt::format("format {}", format), "0, 1 or 2");
    tracks_announced_ = reader.number(2);
    const auto tracks = fmt::format("{} tracks", tracks_announced_);
    if (tracks_announced_ == 0) refuse(body + 2, tracks, "at least one");
    if (format == 0 && tracks_announced_ != 1) refuse(body + 2, tracks, "one track in format 0");
    result_.file.format = static_cast<int>(format);
    read_division(body + 4, reader.number(2));
}

void SmfReader::read_division(std::size_t at, std::uint32_t raw) {
    File& file = result_.file;
    file.division = static_cast<int>(raw);
    if ((raw & 0x8000U) != 0) {  // minus the frames a second, then the ticks a frame
        file.frames_per_second = 256 - static_cast<int>(raw >> 8U);
        file.division = static_cast<int>(raw & 0xFFU);
    }
    if (division_is_valid(file.division, file.frames_per_second)) return;
    if (file.frames_per_second == 0) refuse(at, "a division of 0", "1 to 32767 ticks a quarter");
    refuse(
        at,
        fmt::format("{} frames a second, {} ticks a frame", file.frames_per_second, file.division),
        "24, 25, 29 or 30 frames, 1 to 255 ticks");
}

void SmfReader::read_chunk() {
    if (left() < chunk_start_bytes) {
        data_ended("the end of the data");
        return;
    }
    const ChunkStart chunk = chunk_start();
    if (chunk.is_track()) {
        read_track(chunk);
    } else if (!is_printable(chunk.name)) {
        refuse(at_, shown(chunk.name), "the name of a chunk, such as \"MTrk\"");
    } else if (!fits(chunk)) {
        data_ended(fmt::format("chunk {} of {} bytes, past the end of the data", shown(chunk.name),
                               chunk.length));
    } else {
        at_ = chunk.body() + chunk.length;
    }
}

/// Between chunks, with tracks to come: cut short, unless nothing was read yet.
void SmfReader::data_ended(const std::string& found) {
    if (result_.file.tracks.empty()) refuse(at_, found, "a track chunk (\"MTrk\")");
    result_.cut_at = at_;
}

/// A recorder writes a length that it fills in at the end; one that was stopped never did.
bool SmfReader::length_is_unset(const ChunkStart& chunk) const {
    if (chunk.length == 0xFFFFFFFF) return true;
    const auto next = bytes_.subspan(chunk.body())
                          .first(std::min(bytes_.size() - chunk.body(), track_name.size()));
    return chunk.length == 0 && !next.empty() &&
           !std::equal(next.begin(), next.end(), track_name.begin(), track_name.end());
}

void SmfReader::read_track(const ChunkStart& chunk) {
    const bool open = length_is_unset(chunk) || !fits(chunk);
    const std::size_t to = open ? bytes_.size() : chunk.body() + chunk.length;
    TrackReader reader(ByteReader(bytes_, chunk.body(), to));
    const bool whole = reader.read_all();
    if (whole) {
        end_whole_track(chunk, reader.whole_until());
    } else if (open) {
        result_.cut_at = reader.whole_until();
    } else {
        end_broken_track(chunk, reader.whole_until());
    }
    result_.file.tracks.push_back(std::move(reader.track()));
}

/// The end-of-track event was there; it has to be where the chunk ends.
void SmfReader::end_whole_track(const ChunkStart& chunk, std::size_t after) {
    at_ = after;
    if (length_is_unset(chunk)) return;
    const std::size_t to = std::min(chunk.body() + chunk.length, bytes_.size());
    if (after != to) {
        refuse(after, fmt::format("{} bytes after the end-of-track event", to - after),
               "the end of the track chunk");
    }
    if (!fits(chunk)) result_.cut_at = after;
}

/// The chunk is all there, its end-of-track event is not.
void SmfReader::end_broken_track(const ChunkStart& chunk, std::size_t whole_until) {
    const std::size_t to = chunk.body() + chunk.length;
    if (whole_until != to) {
        refuse(whole_until,
               fmt::format("an event that runs past the end of its track at byte {}", to),
               "a whole event");
    }
    if (to != bytes_.size()) {
        refuse(to, "the end of the track chunk", "an end-of-track event (FF 2F 00)");
    }
    result_.cut_at = to;
}

/// Chunks behind the last track do not matter, a track that the header does not know does.
void SmfReader::check_rest() {
    while (left() >= chunk_start_bytes) {
        const ChunkStart chunk = chunk_start();
        if (chunk.is_track()) {
            refuse(at_, "one more track chunk",
                   fmt::format("{}, as the header says", tracks_announced_));
        }
        if (!is_printable(chunk.name) || !fits(chunk)) return;
        at_ = chunk.body() + chunk.length;
    }
}

}  // namespace

ReadFile read_smf(std::span<const std::uint8_t> bytes) { return SmfReader(bytes).read(); }

File load_smf(const std::filesystem::path& path, std::size_t limit) {
    const auto bytes = files::load_bytes(path, limit);
    try {
        auto read = read_smf(bytes);
        if (!read.cut_at) return std::move(read.file);
        throw text::bad_byte(*read.cut_at, "the file ends in the middle of a track", "");
    } catch (const text::BadInput& error) {
        throw error.in(files::name_of(path));
    }
}

}  // namespace compline::midi
