#pragma once

#include "road_map_part.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/phrase.hpp>

#include <string_view>
#include <vector>

namespace compline::chart {

/// Reads the words of a part before its colon; one at least. Throws text::BadInput.
[[nodiscard]] RoadMapPart read_head(std::string_view road_map, std::vector<text::Word> words);

/// Throws text::BadInput for words that mean something on a bandstand and are no name of a part:
/// "trading 4s", "half-time", "fade", "coda".
void refuse_words_of_the_trade(std::string_view road_map, const std::vector<text::Word>& words);

}  // namespace compline::chart
