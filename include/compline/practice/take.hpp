#pragma once

#include <compline/chart/form.hpp>
#include <compline/listen/listener.hpp>
#include <compline/midi/smf.hpp>

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// A take: what was played, with what was being played along to. A Standard MIDI File, 15,360 ticks
// a quarter, raw messages; and one text event of JSON ("schema": "compline.take/1").

inline constexpr int take_division = 15360;
inline constexpr const char* start_marker = "compline:start";

/// What the take knows of its own making.
struct TakeInfo {
    std::string chart_hash;  ///< of the chart that was played (chart::chart_hash)
    double tempo_bpm = 120;
    chart::Passage passage;
    int times_through = 1;
    std::vector<int> silent_bars;  ///< bars from the first played, from 0
    listen::Delay delay;           ///< the calibration, to be subtracted from every onset
    std::string rhythm = "free";
    std::string strictness = "working";
    std::optional<double> tolerance_ms;  ///< none: auto
    bool operator==(const TakeInfo&) const;
};

struct Take {
    /// In order of time; 0 is bar 1 beat 1 of the first time through.
    std::vector<midi::TimedMessage> messages;
    std::optional<TakeInfo> info;  ///< none: a file from elsewhere
    time::Seconds end;             ///< when the recording ends
    bool marked = false;           ///< the file has the start marker
};

/// A take as a file. `lead` is how long before bar 1 the file starts (the count-in).
[[nodiscard]] midi::File to_file(const Take& take, time::Bpm tempo, time::Meter meter,
                                 time::Seconds lead);

/// Reads a take from a file's contents. Time zero is the start marker, else the file's start.
[[nodiscard]] Take read_take(const midi::File& file);

/// Writes and reads the text event. An event of that schema that cannot be read gives nothing.
[[nodiscard]] std::string to_text(const TakeInfo& info);
[[nodiscard]] std::optional<TakeInfo> read_info(const std::string& text);

}  // namespace compline::practice
