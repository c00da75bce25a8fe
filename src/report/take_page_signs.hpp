#pragma once

#include "picture.hpp"

#include <compline/practice/places.hpp>

#include <string>
#include <string_view>

namespace compline::report {

/// "late", "missed", "wrong tone", "tone missing".
[[nodiscard]] std::string_view fault_words(practice::PlaceFault fault);

/// The signs of a place whose faults are not of milliseconds, larger where they came more often.
/// `beat`: where it is due; tones stand at the foot, `half_height` below.
void draw_signs(Picture& picture, Point beat, double half_height,
                const practice::PlaceFigures& figures);

/// The signs that stand in a strip of these places, and what they say.
[[nodiscard]] std::string key_of_signs(const practice::Places& places);

}  // namespace compline::report
