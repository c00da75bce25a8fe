#pragma once

#include <compline/history/trend.hpp>
#include <compline/history/tune_history.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// What weeks of practice came to, tune by tune. Pure: it is told which day it is.

/// A tune at the beginning of what is told, and now.
struct ThenAndNow {
    std::string then_from, then_to;  ///< the evenings that are meant by then
    std::string now_from, now_to;
    double then_share = 0;  ///< of changes in time, like for like
    double now_share = 0;
    double then_bpm = 0;  ///< the usual tempo
    double now_bpm = 0;
};

/// The fastest tempo at which the whole tune is clean, and since when.
struct CleanTempo {
    double bpm = 120;
    std::string since;             ///< the evening on which it was first reached
    std::optional<double> before;  ///< the fastest clean tempo four weeks and more earlier
};

/// A place over all weeks.
struct PlaceStory {
    int bar = 1;
    time::BeatOfBar beat;
    std::string section;
    std::string from;
    std::string to;
    int evenings = 0;
    ChangeSums sums;
    int late = 0, early = 0, missed = 0, waits = 0, wrong = 0, incomplete = 0;
    double late_ms = 0;  ///< on average, of those that are late
    Trend trend;         ///< of its share of changes in time and right
    /// Evenings in a row, up to the last, without getting better than the ones before.
    int stuck_for = 0;
    std::string last;  ///< evening
    [[nodiscard]] double cost_each() const { return sums.of == 0 ? 0 : sums.cost / sums.of; }
};

/// Two chords, wherever they come.
struct TransitionStory {
    std::string from;  ///< as they sounded, in plain letters
    std::string to;
    std::vector<int> bars;  ///< of this tune
    int evenings = 0;
    ChangeSums sums;
    Trend trend;
    [[nodiscard]] double cost_each() const { return sums.of == 0 ? 0 : sums.cost / sums.of; }
};

struct TuneStory {
    KnownTune tune;
    std::string first_played;
    std::string last_played;
    int evenings = 0;
    double seconds = 0;
    int takes = 0;
    ChangeSums lately;  ///< of the newest third of the evenings, one at least, as they were
    Trend trend;        ///< of changes in time, evening by evening, like for like
    std::optional<ThenAndNow> then_and_now;  ///< from two evenings on
    std::optional<CleanTempo> clean;
    std::vector<TempoSums> tempi;
    std::vector<PlaceStory> weakest;           ///< five at most, costliest first
    std::vector<TransitionStory> transitions;  ///< five at most, costliest first
    std::string due;  ///< the day on which it is due again (spacing); empty for a drill
    int spacing_days = 1;
};

/// An evening's share of changes in time, of those that were played, as if the same places had
/// been played each evening: a loop of the hardest bars would pull it down. Additive (a place's
/// own share and the evening's), least squares by counts.
[[nodiscard]] std::vector<TrendPoint> like_for_like(const TuneHistory& tune);

/// `since`: evenings before that do not count; empty: all do.
[[nodiscard]] TuneStory story_of(const TuneHistory& tune, const std::string& since = "");

/// All places of a tune, in order of the form.
[[nodiscard]] std::vector<PlaceStory> places_of(const TuneHistory& tune,
                                                const std::string& since = "");

}  // namespace compline::history
