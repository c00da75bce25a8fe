#pragma once

#include "page_part.hpp"

#include <compline/practice/places.hpp>
#include <compline/practice/report.hpp>

namespace compline::report {

/// The changes along the form, over all times through: what came late hangs from the beat, what
/// came early stands on it, as far as it was on average and as broad as it was often; missed,
/// astray and wrong tones by shapes of their own. What was in time is not drawn, but the room that
/// it has is. Four bars a piece, which stand beside or below one another as the page is wide.
[[nodiscard]] PagePart strip_part(const practice::Report& report, const practice::Places& places);

/// "late 3 of 44 times, 190 ms on average; wrong tones once".
[[nodiscard]] std::string place_fault_words(const practice::PlaceFigures& figures);

}  // namespace compline::report
