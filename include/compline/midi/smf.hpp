#pragma once

#include <compline/midi/message.hpp>
#include <compline/time/units.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace compline::midi {

// Standard MIDI Files 1.0 (MIDI Association): chunks of delta-timed events. Everything read is
// kept (channel messages, meta events, system exclusive), so that reading and writing a file
// loses nothing that a player hears.

/// Meta event kinds that are used here (SMF 1.0).
namespace meta {
inline constexpr std::uint8_t text = 0x01;
inline constexpr std::uint8_t track_name = 0x03;
inline constexpr std::uint8_t marker = 0x06;
inline constexpr std::uint8_t end_of_track = 0x2F;
inline constexpr std::uint8_t tempo = 0x51;
inline constexpr std::uint8_t time_signature = 0x58;
}  // namespace meta

struct MetaEvent {
    std::uint8_t type = 0;
    std::string data;
    bool operator==(const MetaEvent&) const = default;
};
struct SystemExclusive {
    std::vector<std::uint8_t> bytes;  ///< from 0xF0 (or 0xF7 for a continuation) on
    bool operator==(const SystemExclusive&) const = default;
};
struct TrackEvent {
    std::int64_t tick = 0;  ///< from the start of the file
    std::variant<Message, MetaEvent, SystemExclusive> event;
    bool operator==(const TrackEvent&) const = default;
};
/// Events in the order of their ticks. The end-of-track event is written by itself; when read it
/// only sets `end`.
struct Track {
    std::vector<TrackEvent> events;
    std::int64_t end = 0;  ///< tick of the end of track, never before the last event
    bool operator==(const Track&) const = default;
};
struct File {
    int format = 1;      ///< 0, 1 or 2
    int division = 960;  ///< ticks a quarter note, 1 to 32767; or SMPTE, see `frames_per_second`
    int frames_per_second =
        0;  ///< 0: `division` counts by the quarter; 24, 25, 29, 30: ticks a frame
    std::vector<Track> tracks;
    bool operator==(const File&) const = default;
};

/// A file that cannot be read. `offset` is the byte where that shows, from 0.
class SmfError : public std::runtime_error {
  public:
    SmfError(std::size_t offset, const std::string& what);
    [[nodiscard]] std::size_t offset() const { return offset_; }

  private:
    std::size_t offset_;
};

struct ReadFile {
    File file;
    /// Set when the data ends inside a track (a recording cut short): the byte offset where the
    /// whole events end. Everything before it is in `file`. The caller decides whether to go on.
    std::optional<std::size_t> cut_at;
};

/// Reads a file from memory. Throws SmfError for everything that is not a readable file, except
/// data that ends too early inside a track chunk, which `cut_at` reports.
[[nodiscard]] ReadFile read_smf(std::span<const std::uint8_t> bytes);

/// The bytes of a file: same input, same bytes. No running status.
[[nodiscard]] std::vector<std::uint8_t> write_smf(const File& file);

/// Ticks -> seconds by the file's own tempo events (120 bpm before the first, as SMF 1.0 says).
class TempoMap {
  public:
    explicit TempoMap(const File& file);
    [[nodiscard]] time::Seconds time_of(std::int64_t tick) const;

  private:
    struct Step {
        std::int64_t tick;
        double at;
        double seconds_per_tick;
    };
    std::vector<Step> steps_;
};

/// What a listener needs of a file, all tracks merged in order of time (file order within a tick).
struct Recording {
    std::vector<TimedMessage> messages;  ///< seconds from the file's start
    struct Text {
        time::Seconds at;
        std::uint8_t type;
        std::string text;
    };
    std::vector<Text> texts;  ///< text, track name, marker and other text metas (0x01 to 0x0F)
    time::Seconds length;     ///< end of the last track
};
[[nodiscard]] Recording flatten(const File& file);

[[nodiscard]] MetaEvent tempo_event(time::Bpm tempo);
[[nodiscard]] MetaEvent text_event(std::uint8_t type, std::string text);
[[nodiscard]] MetaEvent time_signature_event(int beats, int unit);

}  // namespace compline::midi
