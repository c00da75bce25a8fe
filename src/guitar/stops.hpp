#pragma once

#include "ring.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <vector>

namespace compline::guitar {

/// A chord that is to be voiced.
struct ToVoice {
    roadmap::DueChange change;
    harmony::Palette palette;
    InPlace place{};
    Line line = Line::free;  ///< where its top voice is to go from the voicing before
    bool goes_on = false;    ///< the chord was there already: it may change its voicing here
    bool pinned = false;     ///< the chart says how
};

/// A tune as a ring: its chords, and a stop for each.
struct Tune {
    std::vector<ToVoice> chords;
    std::vector<Stop> stops;
};

/// The chords of a passage with all the grips that they may have. Throws text::BadInput where one
/// has none.
[[nodiscard]] Tune stops_of(const chart::Form& form, chart::Passage passage, time::Bpm tempo,
                            const Fretboard& fretboard, const VoicingWishes& wishes,
                            WorkCount* work = nullptr);

}  // namespace compline::guitar
