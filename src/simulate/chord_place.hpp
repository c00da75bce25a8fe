#pragma once

#include <compline/chart/form.hpp>

#include <vector>

namespace compline::simulate {

/// A chord of the form where a player meets it: which time through, where, and for how long.
struct ChordPlace {
    int pass = 1;
    int bar = 1;
    double beat = 1;
    time::Ticks at;  ///< from the first beat of the first time through
    time::Ticks length;
    harmony::Chord chord;
};

/// All chords of a form played some times through, a repeat in the next bar as a place of its own;
/// nothing for N.C.
[[nodiscard]] std::vector<ChordPlace> chord_places(const chart::Form& form, int times_through);

/// The chord changes among them: a chord that goes on is one place.
[[nodiscard]] std::vector<ChordPlace> change_places(const chart::Form& form, int times_through);

}  // namespace compline::simulate
