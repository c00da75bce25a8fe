#pragma once

#include <compline/harmony/pitch.hpp>

#include <vector>

namespace compline::band {

/// What a step of a bass line may be: pitch classes, each with how little it is wanted (0 = most).
struct Choice {
    int pitch_class = 0;
    int cost = 0;
};
struct Step {
    std::vector<Choice> choices;  ///< one at least
    int leap_to_next = 12;        ///< semitones at most to the next step's note, 2 to 12
};

/// The bass: E1, its lowest open string, to G3; and where it settles, A1 to D3.
inline constexpr harmony::MidiNote lowest_bass{28};
inline constexpr harmony::MidiNote highest_bass{55};
inline constexpr harmony::MidiNote settled_low{33};
inline constexpr harmony::MidiNote settled_high{50};

/// Where a line stands already: its last notes (two at most), and how far it may leap from the
/// last.
struct Lead {
    std::vector<harmony::MidiNote> notes;
    int leap_to_next = 12;
};

/// The line of least cost through the steps: steps rather than leaps, no note twice running, not
/// to and fro between two notes, few turns, in the settled register. Found over all lines at once
/// (dynamic programming over pairs of notes), so no early choice leads into a corner. Costs are
/// whole numbers and ties go to the lower note: the same steps give the same line everywhere.
/// No leap exceeds an octave. With a lead the line goes on from there; its notes are not in the
/// result.
[[nodiscard]] std::vector<harmony::MidiNote> walk(const std::vector<Step>& steps,
                                                  const Lead& lead = {});

}  // namespace compline::band
