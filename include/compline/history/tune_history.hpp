#pragma once

#include <compline/time/units.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// What the history tells of a tune: values, read at one moment, from which stories and advice are
// made without asking again. All of one player. Dates are evenings: "2026-11-03", ascending. Seams
// of loops and what is uncertain or laid out is in no figure.

/// A tune: one chart, or several of one title that have most of their places in common.
struct KnownTune {
    std::int64_t id = 0;
    std::string title;  ///< by its newest chart; not safe for a terminal
    std::string chart_hash;
    std::string chart_text;  ///< YAML
    std::string chart_file;  ///< where it was last, a path from the root; empty: not known
    bool drill = false;      ///< changes that were typed
    bool operator==(const KnownTune&) const = default;
};

/// Sums over changes.
struct ChangeSums {
    int of = 0;
    int in_time = 0;
    int right = 0;    ///< with the right tones, of those heard by MIDI; by sound all
    int both = 0;     ///< in time and right
    double cost = 0;  ///< as assess::Change has it
    [[nodiscard]] double share_in_time() const {
        return of == 0 ? 0 : static_cast<double>(in_time) / of;
    }
    [[nodiscard]] double share_right() const {
        return of == 0 ? 0 : static_cast<double>(right) / of;
    }
    [[nodiscard]] double share_both() const { return of == 0 ? 0 : static_cast<double>(both) / of; }
    bool operator==(const ChangeSums&) const = default;
};

/// A tune on one evening, all takes of it together.
struct TuneEvening {
    std::string date;
    double seconds = 0;
    int takes = 0;
    ChangeSums sums;
    bool by_sound = false;  ///< some of it: of that, tones are not known
    int whole_times = 0;    ///< times through the whole tune
    int clean_whole_times = 0;
    double slowest_bpm = 0;
    double fastest_bpm = 0;
    double usual_bpm = 0;  ///< the median over changes
    /// The fastest tempo at which the whole tune was clean: two times through in a row, one where
    /// it has practice::Ladder::many_bars bars or more.
    std::optional<double> clean_bpm;
    /// Of times through the whole tune alone: loops and ladders are another task, slower and of
    /// bars that were just played. None of a chart that changed.
    ChangeSums whole = {};
    double whole_bpm = 0;  ///< the median over these times through
    bool operator==(const TuneEvening&) const = default;
};

/// A place of a tune on one evening.
struct PlaceEvening {
    std::string date;
    int bar = 1;
    time::BeatOfBar beat;
    std::string section;
    std::string from;  ///< in plain letters, in the chart's own key; empty: none
    std::string to;
    std::string key;  ///< in which it was played; empty: the chart's own
    ChangeSums sums;
    int late = 0;
    int early = 0;
    int missed = 0;
    int waits = 0;
    int wrong = 0;
    int incomplete = 0;
    double late_ms = 0;  ///< the sum over those that are late
    bool operator==(const PlaceEvening&) const = default;
};

/// A tempo of a tune, to the whole beat, over all evenings.
struct TempoSums {
    int bpm = 120;
    ChangeSums sums;
    int times = 0;  ///< times through, of whatever bars
    int clean = 0;
    std::string last;       ///< evening
    ChangeSums whole = {};  ///< of times through the whole tune alone
    bool operator==(const TempoSums&) const = default;
};

/// Clean times through bars, an evening and tempo each: for what homework asks.
struct CleanRun {
    std::string date;
    int from_bar = 1;
    int to_bar = 1;
    double bpm = 120;
    int in_a_row = 1;  ///< clean times through, one after the other, in one take
    bool operator==(const CleanRun&) const = default;
};

struct TuneHistory {
    KnownTune tune;
    int bars = 0;  ///< of its form, without a coda; 0: its chart cannot be read any more
    double chart_bpm = 0;
    int beats_a_bar = 4;  ///< quarter notes of the first bar's meter, rounded
    std::vector<TuneEvening> evenings;
    std::vector<PlaceEvening> places;  ///< by date, then in order of the form
    std::vector<TempoSums> tempi;      ///< from slow to fast
    std::vector<CleanRun> runs;        ///< by date
    bool operator==(const TuneHistory&) const = default;
};

/// A piece of homework.
struct Homework {
    std::int64_t id = 0;
    std::string player;
    std::string given;  ///< 2026-11-03
    KnownTune tune;
    int from_bar = 1;
    int to_bar = 4;
    double from_bpm = 96;
    double to_bpm = 120;
    bool operator==(const Homework&) const = default;
};

}  // namespace compline::history
