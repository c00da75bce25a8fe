#pragma once

#include <compline/history/tune_history.hpp>

#include <optional>

namespace compline::history {

/// As a ladder wants it: twice in a row, once where the bars are many.
[[nodiscard]] bool is_clean(const CleanRun& run);

/// The fastest tempo at which bars that hold these were clean, on the last evening on which they
/// were.
[[nodiscard]] std::optional<double> last_clean(const TuneHistory& tune, int from_bar, int to_bar);

/// Of the whole tune.
[[nodiscard]] std::optional<double> last_clean(const TuneHistory& tune);

/// The median of the usual tempi lately; the chart's where that is not known. Above 0.
[[nodiscard]] double usual_tempo(const TuneHistory& tune);

/// Of a ladder.
struct LadderRange {
    double from_bpm = 96;
    double to_bpm = 120;
};
/// Where to begin and what to reach; see Thing.
[[nodiscard]] LadderRange ladder_for(const TuneHistory& tune, int from_bar, int to_bar);

/// By so much, in whole beats, not slower than a chart may be.
[[nodiscard]] double slowed(double bpm, double by);

}  // namespace compline::history
