#pragma once

#include <compline/chart/route.hpp>
#include <compline/files/file_io.hpp>
#include <compline/listen/listener.hpp>
#include <compline/midi/smf.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// A take: what was played, with what was being played along to. A Standard MIDI File, 15,360 ticks
// a quarter, raw messages; and one text event of JSON ("schema": "compline.take/1").

inline constexpr int take_division = 15360;
inline constexpr const char* start_marker = "compline:start";
// Text events among the notes: so a take that was cut short has them too. What is known only at the
// end (times through, how the machine bore up) is in the finished file alone (2026-11-25).
inline constexpr const char* interruption_text = "compline:interrupted";
inline constexpr const char* listening_text = "compline:listening";

/// The machine a take was recorded on, and how it bore up.
struct Machine {
    /// Counts go no further: a million says what ten would.
    static constexpr int most = 1'000'000;

    std::string output;  ///< API and name of what the band was played through
    std::string input;   ///< of what the guitar was heard from
    int rate_hz = 0;
    int period_frames = 0;
    double latency_ms = 0;  ///< from the audio callback to the ear, as the system says
    double worst_callback_ms = 0;
    int xruns = 0;             ///< times that sound was lost
    int dropped_events = 0;    ///< MIDI messages that found no room
    int late_strokes = 0;      ///< strokes of the band that came too late to be played
    int unreadable_bytes = 0;  ///< that came from the input and made no MIDI message
    bool operator==(const Machine&) const = default;
};

/// What the take knows of its own making.
struct TakeInfo {
    std::string chart_hash;  ///< of the chart that was played (chart::chart_hash)
    double tempo_bpm = 120;
    chart::Route route;            ///< empty: the take says something impossible
    bool cut_short = false;        ///< the route is what was meant to be played, not what was
    std::vector<int> silent_bars;  ///< bars from the first played, from 0
    std::string feel;              ///< that the player asked for; empty: the chart's
    std::string drums;             ///< the same: slow brushes swing otherwise than a ride
    std::string swing;             ///< the same: "auto" or a ratio such as "1.8"
    std::string placement;         ///< who stood how far behind the beat, in words; empty: nobody
    listen::Delay delay;           ///< the calibration, to be subtracted from every onset
    std::string pickup;            ///< what the player said of it (listen::read_pickup)
    std::string rhythm = "free";
    std::string strictness = "working";
    std::string against = "own";         ///< what "in time" is measured from (assess::Against)
    std::optional<double> tolerance_ms;  ///< none: auto
    std::optional<Machine> machine;      ///< none: not played live, or cut short
    bool operator==(const TakeInfo&) const;
};

struct Take {
    /// In order of time; 0 is bar 1 beat 1 of the first time through.
    std::vector<midi::TimedMessage> messages;
    /// When sound was lost or the clock stepped, in order of time: times near it are uncertain.
    std::vector<time::Seconds> interruptions;
    std::optional<TakeInfo> info;  ///< none: a file from elsewhere
    time::Seconds end;             ///< when the recording ends
    bool marked = false;           ///< the file has the start marker
};

/// A take as a file. `lead` is how long before bar 1 the file starts (the count-in).
[[nodiscard]] midi::File to_file(const Take& take, time::Bpm tempo, time::Meter meter,
                                 time::Seconds lead);

/// The beginning of a take that is still being played: as much as is known of it then.
struct Opening {
    TakeInfo info;  ///< cut short as far as anybody knows, and without machine
    time::Bpm tempo;
    time::Meter meter;
    time::Seconds lead;  ///< how long before bar 1 the file starts
};

/// Writes a take as it is played, so that it survives to its last second whatever ends the program.
/// Until finish() the file has no end, and says so to a reader (midi::ReadFile::cut_at). All calls
/// throw files::FileError.
class TakeFile {
  public:
    /// Makes the file; one that is there already is not touched. Where its beginning cannot be
    /// written (disk full) nothing is left of it.
    TakeFile(const std::filesystem::path& path, Opening opening, files::Access access);

    // In order of time; what comes earlier than the last is put beside it.
    void add(const midi::TimedMessage& timed);
    void add_interruption(time::Seconds at);
    /// Nothing was played until here: how far the recording goes.
    void listened_until(time::Seconds at);

    /// What was added is on the disk when it returns, which may take a while.
    /// Threads: any, beside one that adds.
    void sync() const { file_.sync(); }

    /// Puts the whole take in place of what was written so far, and gives its bytes. Throws
    /// files::AlreadyThere when another file has come to its place.
    std::vector<std::uint8_t> finish(const Take& take);

    [[nodiscard]] const std::filesystem::path& path() const { return file_.path(); }

  private:
    void append(time::Seconds at, const midi::Event& event);

    Opening opening_;
    files::Access access_;
    files::GrowingFile file_;
    std::int64_t tick_ = 0;
};

/// Reads a take from a file's contents. Time zero is the start marker, else the file's start.
[[nodiscard]] Take read_take(const midi::File& file);

/// Writes and reads the text event. An event of that schema that cannot be read gives nothing.
[[nodiscard]] std::string to_text(const TakeInfo& info);
[[nodiscard]] std::optional<TakeInfo> read_info(const std::string& text);

}  // namespace compline::practice
