#pragma once

#include "ear.hpp"

#include <compline/simulate/chance.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::simulate {

// What one hand does on the neck: it looks for the next grip, and slips.

[[nodiscard]] int lowest_fret(const guitar::Shape& shape);

/// One of the two grips that are nearest to the last one; `far`: one more than four frets away,
/// where there is one.
[[nodiscard]] std::optional<guitar::Shape> next_grip(const harmony::Chord& chord,
                                                     const guitar::Shape& last, bool far,
                                                     bool root_lowest, Chance& chance);

/// A grip and the grips around it, for deciding what a slip would sound like.
struct Spot {
    InContext before;
    guitar::Shape old_grip;
    InContext now;
    guitar::Shape grip;
};

/// A grip spoilt in one string.
struct Slip {
    guitar::Shape shape;
    std::optional<harmony::MidiNote> wrong;
    std::optional<int> missing;  ///< semitones above the root
    std::string words;
};
/// Every way to slip that is plain: it sounds wrong on this chord, the rest says which chord it is,
/// and the chord before does not explain it.
[[nodiscard]] std::vector<Slip> wrong_thirds(const Spot& spot);
[[nodiscard]] std::vector<Slip> wrong_frets(const Spot& spot);
[[nodiscard]] std::vector<Slip> stuck_fingers(const Spot& spot);
[[nodiscard]] std::vector<Slip> missing_sevenths(const Spot& spot);

/// All strings moved along by so many frets; nothing where the neck ends or a string is open.
[[nodiscard]] std::optional<guitar::Shape> moved_along(const guitar::Shape& shape, int frets);

/// One or two neighbouring strings with tones of the chord near a grip, on string 1 to 3.
[[nodiscard]] std::optional<guitar::Shape> fill_near(const harmony::Chord& chord,
                                                     const guitar::Shape& grip, bool double_stop,
                                                     Chance& chance);

}  // namespace compline::simulate
