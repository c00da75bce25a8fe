#pragma once

#include <compline/simulate/rough_pickup.hpp>

#include <cstdint>
#include <string>

namespace compline::rough {

/// What was played and what went wrong: "schema": "compline.truth/1"; seconds from the take's zero
/// to the microsecond.
[[nodiscard]] std::string truth_json(const simulate::RoughTake& take, std::uint64_t seed);

}  // namespace compline::rough
