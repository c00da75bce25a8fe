#pragma once

#include "road_map_part.hpp"

#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace compline::chart {

/// How a word for the manner is written in a road map: "walking", "drums=brushes", "feel=bossa";
/// empty when it is none. Capitals do not count; `off` says too little to be one.
[[nodiscard]] std::string as_written_in_a_road_map(std::string_view word);

/// Reads what stands behind the colon of a part, up to byte `to`. Throws text::BadInput.
void read_manner_of_part(const Form& form, std::string_view road_map, std::size_t from,
                         std::size_t to, RoadMapPart& part);

}  // namespace compline::chart
