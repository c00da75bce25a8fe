#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// The player's time in words: strums on beats and off-beats, swing, each beat of a rhythm, the
/// place beside the beat, silences, kicks. A line each, those there is nothing to say of left out.
[[nodiscard]] std::string time_lines(const practice::Report& report);

/// "2.58:1".
[[nodiscard]] std::string ratio_words(double ratio);

}  // namespace compline::report
