#pragma once

#include "json_value.hpp"

#include <compline/roadmap/asked.hpp>

#include <nlohmann/json.hpp>

namespace compline::practice {

// What was asked, as JSON and back: equal values after a round trip. What nobody asked for is left
// out. Readers throw text::BadInput.

[[nodiscard]] nlohmann::ordered_json to_json(const roadmap::Asked& asked);
[[nodiscard]] roadmap::Asked read_asked(const JsonValue& json);
/// [first, last], as stretches have it.
[[nodiscard]] chart::Passage read_bars(const JsonValue& json);

/// A way is read and written as part of what it belongs to.
void write_way(const chart::Way& way, nlohmann::ordered_json& json);
[[nodiscard]] chart::Way read_way(const JsonValue& json);

}  // namespace compline::practice
