#pragma once

#include "page_part.hpp"

#include <compline/practice/report.hpp>
#include <compline/report/fret_diagram.hpp>

namespace compline::report {

/// How far the hand went beside a plan, and where it went furthest beyond it, each with the grip
/// that was held and the one that lay nearer, or the plan's. Nothing where nobody asked, or nothing
/// is known.
[[nodiscard]] PagePart hand_part(const practice::Report& report, Hand hand);

}  // namespace compline::report
