#pragma once

#include "due_chords.hpp"

#include <compline/report/now_playing.hpp>

#include <string>

namespace compline::report {

/// "Cm7"; without a chord "N.C.".
[[nodiscard]] std::string chord_words(const std::optional<harmony::Chord>& chord);

/// When the next chord comes: "on 3", "next bar", "next bar, on 3", "in 4 bars".
[[nodiscard]] std::string when_words(const ChordToCome& next, const roadmap::RoadMap& map,
                                     const roadmap::PlayedPlace& place);

/// A glance in a line: "Cm7, F7 on 3"; in the count-in "count-in 2, then F7".
[[nodiscard]] std::string glance_words(const Playing& playing, const roadmap::PlayedPlace& place,
                                       time::Ticks position);

}  // namespace compline::report
