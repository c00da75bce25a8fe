#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/manner.hpp>
#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace compline::chart {

/// One part of a road map as it is written, before it is known what comes before it.
struct RoadMapPart {
    enum class Kind { chorus, intro, tag, rit, held_ending };
    /// Where a chorus begins, and how it ends.
    enum class From { top, segno };
    enum class Al { end, coda, fine };
    Kind kind = Kind::chorus;
    std::string name;           ///< of a chorus as written, else "intro", "tag", "held ending"
    std::size_t position = 0;   ///< of its first character in the road map
    std::optional<int> number;  ///< behind intro, tag and rit
    int times = 1;              ///< through the form, of a chorus
    bool until_cue = false;
    From from = From::top;
    Al al = Al::end;
    bool a_tempo = false;
    AskedManner manner;
    bool silent = false;
    std::optional<Passage> passage;  ///< of a chorus
};

/// Reads the part of a road map that stands from one byte to another. Throws text::BadInput.
[[nodiscard]] RoadMapPart read_road_map_part(const Form& form, std::string_view road_map,
                                             std::size_t from, std::size_t to);

}  // namespace compline::chart
