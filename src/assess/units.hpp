#pragma once

#include "grid.hpp"
#include "sounding.hpp"

#include <cstddef>
#include <vector>

namespace compline::assess {

/// Strums that may have been meant as one: mostly one alone; a chord broken into single notes; an
/// up-stroke with the down-stroke that it leads to; a slide with the grip that it came from.
struct Unit {
    enum class Kind { strum, broken, up_stroke, slide };
    Kind kind = Kind::strum;
    std::size_t begin = 0;  ///< strums from here
    std::size_t end = 0;    ///< to before here
    std::size_t sound = 0;  ///< what is judged: an index into Units::sounds
    bool moves_grip = true;
    bool approaches = false;  ///< it slides, a fret or two, into the strum after it
};

struct Units {
    std::vector<SoundingStrum> sounds;  ///< the strums, and after them what broken chords make
    std::vector<Unit> units;            ///< in order of `begin`
};

/// No strum of a broken chord is further than a beat from the one before it, and no approach from
/// where it goes, played by hand.
[[nodiscard]] Units find_units(std::vector<SoundingStrum> strums, const Grid& grid);

}  // namespace compline::assess
