#pragma once

#include "json_value.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>

#include <nlohmann/json.hpp>

namespace compline::practice {

// What the band brought, and where it stood, as JSON and back: equal values after a round trip,
// but for voicings, which are not kept. Readers throw text::BadInput.

[[nodiscard]] nlohmann::ordered_json to_json(const band::Players& players);
[[nodiscard]] band::Players read_players(const JsonValue& json);

[[nodiscard]] nlohmann::ordered_json to_json(const band::Stage& stage);
[[nodiscard]] band::Stage read_stage(const JsonValue& json);

}  // namespace compline::practice
