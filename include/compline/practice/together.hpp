#pragma once

#include <compline/practice/report.hpp>

#include <optional>
#include <span>

namespace compline::practice {

/// Several takes of one chart in one key, as if they had been played one behind the other: each
/// change as it was judged, times through counted on, tempi as they were. Of fewer than two takes,
/// of takes of different charts, and of more than a road map may hold, nothing.
[[nodiscard]] std::optional<Report> together(std::span<const Report> takes);

}  // namespace compline::practice
