#pragma once

#include "json_values.hpp"

#include <compline/practice/ladder.hpp>

#include <optional>

namespace compline::report {

/// What a ladder came to; null where there was none.
[[nodiscard]] Json ladder_json(const std::optional<practice::LadderCourse>& course);

}  // namespace compline::report
