#pragma once

#include "fit_minutes.hpp"

#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// Each kind of thing to do, where there is one.

using PlayedTunes = std::vector<const TuneHistory*>;

/// That can be played: no drill, with a chart that can be read, and an evening.
[[nodiscard]] PlayedTunes playable(const std::vector<TuneHistory>& tunes);

/// Of these, played in the four weeks before today, or before the last evening of all where that
/// is longer ago.
[[nodiscard]] PlayedTunes played_lately(const PlayedTunes& tunes, const std::string& today);

/// Not done, nor done for today; the longest given first.
[[nodiscard]] std::vector<PlannedThing> homework_things(const std::vector<TuneHistory>& tunes,
                                                        std::vector<Homework> homework,
                                                        const std::string& today);

[[nodiscard]] std::optional<PlannedThing> weakest_place(const PlayedTunes& tunes);

/// Twice as costly as the rest, on three evenings at least, weak in two tunes at least.
[[nodiscard]] std::optional<PlannedThing> weak_transition(const PlayedTunes& tunes);

/// The most overdue.
[[nodiscard]] std::optional<PlannedThing> tune_due(const PlayedTunes& tunes,
                                                   const std::string& today);

[[nodiscard]] PlannedThing whole_tune(const TuneHistory& tune);

}  // namespace compline::history
