#pragma once

#include "stops.hpp"

#include <string>
#include <utility>
#include <vector>

namespace compline::guitar {

/// "bar 3", "bar 3 beat 2.5".
[[nodiscard]] std::string place_name(const roadmap::DueChange& change);

/// What is wrong with a shape as a chord: "which lacks the 3".
[[nodiscard]] std::string wrong_with(const Fretboard& fretboard, const Shape& shape,
                                     const harmony::Palette& palette);

/// What stands in the way of a chord that has no grip: the strings that cannot hold it and the
/// nearest that can, all chords of the tune considered, or the wish without which there would be a
/// grip.
[[nodiscard]] std::string nothing_for(const ToVoice& item, const std::vector<ToVoice>& all,
                                      const Fretboard& fretboard, const VoicingWishes& wishes);

/// That no hand reaches the guide tones of a chord on these two strings, and the nearest two on
/// which it reaches those of all chords.
[[nodiscard]] std::string no_guide_tones_for(const ToVoice& item, const std::vector<ToVoice>& all,
                                             const Fretboard& fretboard,
                                             std::pair<int, int> strings);

}  // namespace compline::guitar
