#pragma once

#include "stops.hpp"

#include <vector>

namespace compline::guitar {

/// The chords of a passage in order, each with what the tune makes of it and the player wishes of
/// its sound; a chord that is to move while it lasts once a bar.
[[nodiscard]] std::vector<ToVoice> chords_to_voice(const chart::Form& form, chart::Passage passage,
                                                   const VoicingWishes& wishes);

}  // namespace compline::guitar
