#pragma once

#include <compline/history/trend.hpp>
#include <compline/history/tune_history.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// What weeks of practice came to, tune by tune. Pure. What was weak and is mended is not weak: so
// only what was played lately makes a place or a transition weak, that is on the evenings of the
// tune's last four weeks, and on its last three at least. A place is weak where then fewer than
// nine in ten of its changes were in time and right (as a clean time through wants), of three at
// least, on two evenings at least, and where two were not: one is chance (common practice, no
// source).

/// A tune as it was, and now. Now are its last evening and those of the six days before. Then is
/// such a week, too: the last one that ended four weeks or more before the last evening. Of a tune
/// that is younger, then and now are the first third and the last third of its evenings.
struct ThenAndNow {
    std::string then_from, then_to;  ///< the evenings that are meant by then
    std::string now_from, now_to;
    double then_share = 0;  ///< of changes in time, like for like
    double now_share = 0;
    double then_bpm = 0;  ///< the usual tempo: the median of the evenings'
    double now_bpm = 0;
};

/// The fastest tempo at which the whole tune is clean, and since when.
struct CleanTempo {
    double bpm = 120;
    std::string since;  ///< the evening on which it was first reached
    /// The fastest that was clean four weeks and more before the tune's last evening.
    std::optional<double> before;
};

/// A place over all weeks: bar, beat and chords. Figures are of all evenings; `lately` says what
/// makes it weak.
struct PlaceStory {
    int bar = 1;
    time::BeatOfBar beat;
    std::string section;
    std::string from;
    std::string to;
    int evenings = 0;
    ChangeSums sums;
    ChangeSums lately;
    int late = 0, early = 0, missed = 0, waits = 0, wrong = 0, incomplete = 0;
    double late_ms = 0;  ///< on average, of those that are late
    Trend trend;         ///< of its share of changes in time and right
    /// Evenings in a row, up to the last, without getting better than the ones before: since its
    /// share, taken over three evenings together, was last five points above all that it had been.
    int stuck_for = 0;
    std::string last;  ///< evening
    [[nodiscard]] double cost_each() const { return sums.of == 0 ? 0 : sums.cost / sums.of; }
};

/// Two chords, wherever they come, and by whatever name: F#m7 is Gbm7.
struct TransitionStory {
    std::string from;  ///< as they sounded, in plain letters; never empty
    std::string to;
    std::vector<int> bars;  ///< of this tune, ascending
    int evenings = 0;
    ChangeSums sums;
    ChangeSums lately;
    Trend trend;
    [[nodiscard]] double cost_each() const { return sums.of == 0 ? 0 : sums.cost / sums.of; }
};

/// Weak places that a story tells of, and transitions.
inline constexpr std::size_t most_told = 5;

struct TuneStory {
    KnownTune tune;
    std::string first_played;
    std::string last_played;
    int evenings = 0;
    double seconds = 0;
    int takes = 0;
    ChangeSums lately;  ///< of the newest third of the evenings, one at least, as they were
    Trend trend;        ///< of changes in time, evening by evening, like for like
    Trend tempo_trend;  ///< of the usual tempo of the same evenings
    bool by_whole_tunes = false;             ///< of times through the whole tune alone
    std::optional<ThenAndNow> then_and_now;  ///< from two evenings on
    std::optional<CleanTempo> clean;
    std::vector<TempoSums> tempi;  ///< that were played since
    /// That are weak: those first that cost most a change lately.
    std::vector<PlaceStory> weakest;
    std::vector<TransitionStory> transitions;  ///< that are weak; likewise
    /// The day on which it is due again (see Spacing); empty for a drill, and for a tune that was
    /// never played whole.
    std::string due;
    int spacing_days = 1;
};

/// An evening's share of changes in time, as if the same places had been played each evening: a
/// loop of the hardest bars would pull it down. Additive (a place's own share and the evening's),
/// least squares by counts. A place is believed to differ from the rest only as far as its changes
/// say: one change more, as good as the rest, is added to each. Evenings that have no place in
/// common, nor by way of other evenings, cannot be compared: each such group stands by its plain
/// shares. Where all evenings played the same places, all are plain shares. An evening of nothing
/// counted has no point. Never below 0, nor above 1.
[[nodiscard]] std::vector<TrendPoint> like_for_like(const TuneHistory& tune);

/// `since`: evenings before that do not count; empty: all do. Of a tempo all evenings are in, if
/// one counts.
[[nodiscard]] TuneStory story_of(const TuneHistory& tune, const std::string& since = "");

/// All places of a tune, in order of the form.
[[nodiscard]] std::vector<PlaceStory> places_of(const TuneHistory& tune,
                                                const std::string& since = "");

}  // namespace compline::history
