#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/harmony/chord.hpp>

#include <bitset>
#include <span>
#include <string_view>
#include <vector>

namespace compline::simulate {

// The grips that the simulated guitarist knows: written down by hand as a teacher would on the
// board, three and four strings on several string sets, and moved along the neck. No rule of the
// judge's chooses them, so that what the judge accepts is put to the test by them.

/// A grip of a chord on C: what follows the root in the symbol, and the frets from string 6 to
/// string 1, "x-3-5-4-5-x".
struct HandVoicing {
    std::string_view quality;
    std::string_view frets;
};
[[nodiscard]] std::span<const HandVoicing> hand_voicings();

/// Every grip that is known of a chord, each as often as the neck has room for it between the
/// first and the fourteenth fret. Of a slash chord the upper chord. Of a quality that is not in the
/// table what a player would take for it: a 7b9#11 as an alt, a maj11 as a maj9. Empty where not
/// even that is known.
[[nodiscard]] std::vector<guitar::Shape> known_grips(const harmony::Chord& chord);

/// Semitones above the root, 0 to 11.
using Intervals = std::bitset<12>;

/// All that sounds in the grips of a chord: what a player may take for fills and melodies.
[[nodiscard]] Intervals sounds_of(const harmony::Chord& chord);

}  // namespace compline::simulate
