#pragma once

#include "rough_search.hpp"

#include <compline/practice/offers.hpp>

#include <string>

namespace compline::practice {

/// What is asked for in an option's own units: whole milliseconds after the take's own start, a
/// tempo with no more decimals than matter at the end of the take.
[[nodiscard]] time::Seconds offset_asked(const ScoreRequest& request, time::Seconds later);
[[nodiscard]] time::Bpm tempo_asked(const Report& report, double faster);
/// Semitones from the key in which the chart is written, -5 to 6.
[[nodiscard]] int semitones_asked(const chart::Chart& chart, int higher);

/// The sentence, and the option. now, then: without and with it.
[[nodiscard]] Hint hint_of(const Guess& guess, const ScoreRequest& request, const Take& take,
                           const Report& report, RightChanges now, RightChanges then);
[[nodiscard]] Hint hint_of(const OtherChart& chart, RightChanges now, RightChanges then);

}  // namespace compline::practice
