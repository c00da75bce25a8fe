#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/harmony/palette.hpp>

namespace compline::guitar {

/// A chord as a comper reads it: which tones tell it, as pitch classes.
struct WrittenTones {
    explicit WrittenTones(const harmony::Chord& chord);

    harmony::PitchClasses all;
    /// The tensions and sixths that it asks for. A plain ninth beneath a written eleventh or
    /// thirteenth is there for the theory and not among them.
    harmony::PitchClasses tensions;
    harmony::PitchClasses thirds;    ///< the third, or the fourth or second of a sus
    harmony::PitchClasses sevenths;  ///< or sixths; none in a triad
    harmony::PitchClasses altered_fifths;
};

}  // namespace compline::guitar
