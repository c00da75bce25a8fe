#pragma once

#include "json_values.hpp"

#include <compline/practice/comparison.hpp>

namespace compline::report {

/// Bar, beat, section and chords.
[[nodiscard]] Json compared_change_json(const practice::ComparedPlace& place);
[[nodiscard]] Json figures_json(const practice::PlaceFigures& figures);

}  // namespace compline::report
