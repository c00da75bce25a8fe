#pragma once

#include <compline/chart/route.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::assess {

/// A chord change that is due: where in the music, and what may be played on either side of it.
struct Target {
    int pass = 1;
    int bar = 1;
    double beat = 1;
    std::string section;
    bool seam = false;
    time::Ticks at;       ///< from the first beat of the first time through
    time::Ticks in_form;  ///< where it starts, from bar 1 beat 1
    time::Ticks length;   ///< until the next change, or N.C., or the end
    std::optional<harmony::Chord> from;
    harmony::Chord to;
};

/// All changes of a route that ends, and the palette of each.
struct Targets {
    std::vector<Target> due;
    std::vector<harmony::Palette> palettes;  ///< one a target, in the same order
};

[[nodiscard]] Targets find_targets(const chart::Form& form, const chart::Route& route,
                                   harmony::Strictness strictness);

}  // namespace compline::assess
