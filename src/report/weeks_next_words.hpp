#pragma once

#include <compline/report/weeks.hpp>

#include <string>

namespace compline::report {

/// "Lantern Street, bars 6-9, from 108 up to 132 bpm".
[[nodiscard]] std::string what_words(const history::Thing& thing);

/// "Bar 7, Am7♭5 → D7: late in 9 of 14, 84 ms on average, no better for 4 evenings: so today two
/// bars alone."
[[nodiscard]] std::string why_words(const history::Thing& thing, const WeeksAsked& asked);

}  // namespace compline::report
