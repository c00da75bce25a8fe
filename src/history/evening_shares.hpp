#pragma once

#include <compline/history/evenings.hpp>

#include <string>

namespace compline::history {

/// The tune was played whole on six evenings or more, and on half of them: these alone are
/// compared. Loops and ladders are another task: slower, and of bars that were just played
/// (2026-11-30: pooled, they hid two thirds of what simulated pupils had gained).
[[nodiscard]] bool is_told_by_whole_tunes(const TuneHistory& tune, const std::string& since);

}  // namespace compline::history
