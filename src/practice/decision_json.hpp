#pragma once

#include "json_value.hpp"

#include <compline/roadmap/decision.hpp>

#include <nlohmann/json.hpp>

namespace compline::practice {

// A decision as JSON and back: equal values after a round trip. Whether a road map can bear it is
// for the road map to say. The reader throws text::BadInput.

[[nodiscard]] nlohmann::ordered_json to_json(const roadmap::Decision& decision);
[[nodiscard]] roadmap::Decision read_decision(const JsonValue& json);

}  // namespace compline::practice
