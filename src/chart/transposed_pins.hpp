#pragma once

#include <compline/chart/chart.hpp>
#include <compline/harmony/transpose.hpp>

#include <string>
#include <vector>

namespace compline::chart {

/// How the chords of a stretch are transposed: along the row of fifths, into its key.
struct KeyMove {
    int fifths = 0;
    int sharps = 0;
    [[nodiscard]] harmony::Chord of(const harmony::Chord& chord) const {
        return harmony::transposed(chord, fifths, sharps);
    }
};

/// The pins of a transposed chart. The chord of a pin is found by its name: where sections name it
/// in other ways, there is a pin for each. What is left out is said in words.
[[nodiscard]] std::vector<Pin> transposed_pins(const std::vector<Pin>& pins,
                                               const std::vector<KeyMove>& moves, int semitones,
                                               int last_fret, std::vector<std::string>& left_out);

}  // namespace compline::chart
