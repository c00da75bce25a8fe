#pragma once

#include <compline/chart/form.hpp>
#include <compline/text/bad_input.hpp>

#include <optional>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace compline::chart {

// Voicings that a chart asks for by itself ("pins"), whatever a plan would choose there.

inline constexpr int fewest_strings = 4;  ///< of a shape
inline constexpr int most_strings = 8;
inline constexpr int highest_fret = 36;
inline constexpr int most_pins = 2000;  ///< in one chart

/// Reads a shape from the lowest string to string 1: a digit or x a string ("x5x56x"), with hyphens
/// when a fret has two digits ("x-10-12-11-x-x"); 4 to 8 strings, at least one of which sounds,
/// frets up to 36. Which frets a guitar has is not known here. None: muted. Throws text::BadInput.
[[nodiscard]] std::vector<std::optional<int>> read_shape_text(std::string_view text);

/// The pin that holds for a chord in a bar (its number in the form); null when there is none. The
/// closest wins: bars and chord before bars before chord, then the fewer bars, then the one written
/// last. It belongs to `form`.
[[nodiscard]] const Pin* pin_for(const Form& form, int bar, const harmony::Chord& chord);

}  // namespace compline::chart
