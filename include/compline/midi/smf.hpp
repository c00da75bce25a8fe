#pragma once

#include <compline/files/file_io.hpp>
#include <compline/midi/message.hpp>
#include <compline/time/units.hpp>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace compline::midi {

// Standard MIDI Files 1.0 (MIDI Association): chunks of delta-timed events. Everything read is
// kept (channel messages, meta events, system exclusive), so that reading and writing a file
// loses nothing that a player hears.
//
// What the reader takes, where the standard leaves room or files in use differ:
// - Headers longer than 6 bytes and chunks of unknown kinds are skipped, as the standard asks.
// - Running status lives inside one track; a meta or system exclusive event cancels it.
// - After the last announced track anything but a further track is passed over (old transfer
//   programs padded files).
// - A track length of 0 with events behind it, or of 0xFFFFFFFF, was never filled in by the
//   recorder: the track then reaches to its end-of-track event.
// - A track was cut short when the data ends before its end-of-track event; likewise when the
//   announced tracks are not all there, or a track's length points past the end of the data.
//   `cut_at` says so. A cut before the first track's events begin leaves nothing to keep and is an
//   error.
// - No event lies beyond tick 2^40 (a year at 15,360 ticks a quarter and 120 bpm).

/// Meta event kinds that are used here (SMF 1.0).
namespace meta {
inline constexpr std::uint8_t text = 0x01;
inline constexpr std::uint8_t track_name = 0x03;
inline constexpr std::uint8_t marker = 0x06;
inline constexpr std::uint8_t end_of_track = 0x2F;
inline constexpr std::uint8_t tempo = 0x51;
inline constexpr std::uint8_t time_signature = 0x58;
}  // namespace meta

/// Types 0x00 to 0x7F. A tempo holds 3 bytes and is never 0.
struct MetaEvent {
    std::uint8_t type = 0;
    std::string data;
    bool operator==(const MetaEvent&) const = default;
};
struct SystemExclusive {
    /// From 0xF0 (or 0xF7: a continuation, or any bytes sent as they are) on, without the length.
    std::vector<std::uint8_t> bytes;
    bool operator==(const SystemExclusive&) const = default;
};
using Event = std::variant<Message, MetaEvent, SystemExclusive>;
struct TrackEvent {
    std::int64_t tick = 0;  ///< from the start of the file (format 2: of the track), to 2^40
    Event event;
    bool operator==(const TrackEvent&) const = default;
};
/// Events in the order of their ticks. The end-of-track event is written by itself; when read it
/// only sets `end`.
struct Track {
    std::vector<TrackEvent> events;
    std::int64_t end = 0;  ///< tick of the end of track, never before the last event

    /// Puts an event behind the others, and the end no earlier than it.
    void add(std::int64_t tick, Event event);
    bool operator==(const Track&) const = default;
};
struct File {
    int format = 1;      ///< 0 (one track), 1 (tracks played together) or 2 (patterns)
    int division = 960;  ///< ticks a quarter note, 1 to 32767; or SMPTE, see `frames_per_second`
    int frames_per_second =
        0;  ///< 0: `division` counts by the quarter; 24, 25, 29 (29.97), 30: 1 to 255 ticks a frame
    std::vector<Track> tracks;
    bool operator==(const File&) const = default;
};

struct ReadFile {
    File file;
    /// Set when the data ends too early (a recording cut short): the byte offset where the whole
    /// events end. Everything before it is in `file`; a cut track ends at its last whole event.
    /// The caller decides whether to go on.
    std::optional<std::size_t> cut_at;
};

/// Reads a file from memory. Throws text::BadInput, with the byte where it shows, for everything
/// that is not a readable file, except data that ends too early once a track has begun, which
/// `cut_at` reports. Time and memory grow with the bytes given (an event takes two at least), not
/// with the numbers written in them.
[[nodiscard]] ReadFile read_smf(std::span<const std::uint8_t> bytes);

/// Reads a file of at most `limit` bytes that has to be whole. Throws text::BadInput, naming it.
[[nodiscard]] File load_smf(const std::filesystem::path& path,
                            std::size_t limit = files::default_limit);

/// The bytes of a file: same input, same bytes. No running status. `read_smf` gives the same
/// File back. Throws std::invalid_argument, naming track and event, for a File that the format
/// cannot hold: events out of order, two events (or the end) more than 268,435,455 ticks apart, an
/// `end` before the last event, numbers outside the ranges above, an end-of-track among the events.
[[nodiscard]] std::vector<std::uint8_t> write_smf(const File& file);

// A file that is written as it is played. What is on the disk can be read at any moment: see the
// last track's unset length, above.

/// The file as far as it goes: its last track is left open, to be continued by event_bytes. Throws
/// std::invalid_argument like write_smf; that track's `end` is not used.
[[nodiscard]] std::vector<std::uint8_t> open_smf(const File& file);

/// The bytes of an event behind one at tick `from`. Throws std::invalid_argument like write_smf.
[[nodiscard]] std::vector<std::uint8_t> event_bytes(std::int64_t from, const TrackEvent& event);

/// The most ticks that fit between two events: 28 bits.
inline constexpr std::int64_t most_ticks_apart = 0x0FFFFFFF;

/// Ticks -> seconds by the file's own tempo events (120 bpm before the first, as SMF 1.0 says), in
/// whichever track they stand; of several on one tick the last in file order counts. With SMPTE
/// ticks tempo has no say. A file of format 2 with several tracks has no common time:
/// text::BadInput.
class TempoTrack {
  public:
    explicit TempoTrack(const File& file);
    /// Ticks before 0 run at the first tempo.
    [[nodiscard]] time::Seconds time_of(std::int64_t tick) const;

  private:
    struct TempoStep {
        std::int64_t tick;
        double at;
        double seconds_per_tick;
    };
    std::vector<TempoStep> steps_;
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
/// Throws text::BadInput for format 2 with several tracks: those are patterns independent of each
/// other, and in what order they sound the file does not say.
[[nodiscard]] Recording flatten(const File& file);

// These throw std::invalid_argument outside their ranges.

/// To the nearest whole microsecond a quarter, MIDI's own resolution (at 132 bpm 0.3 millionths of
/// the tempo). From 3.6 bpm.
[[nodiscard]] MetaEvent tempo_event(time::Bpm tempo);
/// A text-like kind, 0x01 to 0x0F.
[[nodiscard]] MetaEvent text_event(std::uint8_t type, std::string text);
/// Beats 1 to 255; unit 1, 2, 4 ... 64. The metronome clicks once a unit.
[[nodiscard]] MetaEvent time_signature_event(int beats, int unit);

}  // namespace compline::midi
