#pragma once

#include "road_map_part.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

/// A word of a road map and where it stands, in bytes.
struct RoadMapWord {
    std::string_view text;
    std::size_t position = 0;
};

/// The words from one byte of a road map to another; `between`: the characters that separate them.
[[nodiscard]] std::vector<RoadMapWord> road_map_words(std::string_view road_map, std::size_t from,
                                                      std::size_t to, std::string_view between);

/// How a word for the manner is written in a road map: "walking", "drums=brushes", "feel=bossa";
/// empty when it is none. Capitals do not count; `off` says too little to be one.
[[nodiscard]] std::string as_written_in_a_road_map(std::string_view word);

/// Reads what stands behind the colon of a part, up to byte `to`. Throws PlanError.
void read_manner_of_part(const Form& form, std::string_view road_map, std::size_t from,
                         std::size_t to, RoadMapPart& part);

}  // namespace compline::chart
