#pragma once

#include <compline/chart/form.hpp>

#include <string>

namespace compline::chart {

/// "G", or "G (written in F)" of a chart that was transposed.
[[nodiscard]] std::string key_in_words(const Chart& chart);

/// A chart in one line: title, key, meter, tempo, feel, length and number of changes.
/// "Three Lamps · F · 4/4 · 132 bpm · swing auto, 2.58:1 · 12 bars · 14 changes". What else chart
/// and sections ask for stands behind the feel, kicks and road map at the end: "... · brushes · B
/// bossa, two-feel · 12 bars · 14 changes · 3 kicks · road map: head, solo twice, head". The title
/// is printed as the reader let it in: without control characters.
[[nodiscard]] std::string summary(const Form& form);

/// The same with other words for the key.
[[nodiscard]] std::string summary(const Form& form, const std::string& key);

}  // namespace compline::chart
