#pragma once

#include <compline/practice/hand_against_plan.hpp>

#include <string>

namespace compline::report {

/// Frets to a tenth: what is a mean is not whole.
[[nodiscard]] std::string mean_frets(double value);
/// "8.5 frets", "1 fret", "no fret".
[[nodiscard]] std::string travel_words(double value);

/// "x5455x, 1 fret: 2 stays on string 4; you lifted it".
[[nodiscard]] std::string nearer_words(const practice::NearerGrip& nearer);

/// "bar 5", "bar 8 beat 3".
[[nodiscard]] std::string bar_of_move(const practice::HandMove& move);

}  // namespace compline::report
