#pragma once

#include "page_part.hpp"

#include <compline/practice/report.hpp>

namespace compline::report {

/// How the strums lie around what they were meant for: those on beats and those between beats, each
/// counted in steps of ten milliseconds, ahead on the left, behind on the right. Single notes and
/// what leads into a strum keep no time and are left out.
[[nodiscard]] PagePart beat_part(const practice::Report& report);

}  // namespace compline::report
