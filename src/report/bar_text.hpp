#pragma once

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// What stands at each beat of a bar: a chord's symbol, "N.C.", "%", or nothing.
using BeatTexts = std::vector<std::string>;

/// A bar's texts. `first_in_row`: never a simile mark. Chords that begin within one beat (no
/// chart's reader lets them in) share its text.
[[nodiscard]] BeatTexts beat_texts(const chart::Form& form, int bar, bool first_in_row);

/// The fewest columns that a bar with these texts takes between its bar lines: a blank, and each
/// text with a blank behind it.
[[nodiscard]] int least_width(const BeatTexts& texts);

/// Cuts the longest of the texts until the bar fits into `width` (least_width of empty texts or
/// more, asserted).
void shorten(BeatTexts& texts, int width);

/// The column of each beat, from the bar line before it, in a bar of `width` columns (least_width
/// or more; one less leaves no blank behind the last text). Even where that fits.
[[nodiscard]] std::vector<int> beat_columns(const BeatTexts& texts, int width);

/// Adds to the narrowest of the widths (the first of equals) until they sum up to `total`. Equal
/// in the end where none was too wide.
void widen_evenly(std::vector<int>::iterator first, std::vector<int>::iterator last, int total);

}  // namespace compline::report
