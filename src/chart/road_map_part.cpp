#include "road_map_part.hpp"

#include "road_map_head.hpp"
#include "road_map_words.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/phrase.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::chart {

using PartKind = RoadMapPart::Kind;

RoadMapPart read_road_map_part(const Form& form, std::string_view road_map, std::size_t from,
                               std::size_t to) {
    const std::size_t colon = std::min(road_map.find(':', from), to);
    auto words = text::Phrase(road_map, text::Phrase::Parted::by_blanks, from, colon).words();
    if (words.empty()) {
        throw text::bad_character(
            road_map, std::min(from, road_map.size()),
            colon < to ? "a part without a name: write one before the colon, such as "
                         "head: two-feel"
                       : "a part with nothing in it: write one such as solo x2, or "
                         "delete the ;");
    }
    RoadMapPart part = read_head(road_map, std::move(words));
    if (colon == to) return part;
    if (part.kind == PartKind::held_ending || part.kind == PartKind::rit) {
        throw text::bad_character(road_map, colon,
                                  fmt::format("a colon behind {}: it stands alone", part.name));
    }
    read_manner_of_part(form, road_map, colon + 1, to, part);
    return part;
}

}  // namespace compline::chart
