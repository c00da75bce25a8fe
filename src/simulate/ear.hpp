#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/simulate/hand_voicings.hpp>

#include <optional>

namespace compline::simulate {

// What any listener hears at once: a small table of its own, that leaves out whatever somebody
// could take for a colour.

/// A chord in its place: a dominant is coloured by where it goes.
struct InContext {
    harmony::Chord chord;
    std::optional<harmony::Chord> next;
};

/// Semitones above the root that nobody would defend.
[[nodiscard]] Intervals plainly_wrong(const InContext& where);

/// The third, the fifth and the seventh (or sixth) of a chord, in semitones above the root; none
/// where it has none that must sound.
struct Frame {
    std::optional<int> third;
    std::optional<int> fifth;
    std::optional<int> seventh;
    bool needs_seventh = false;  ///< without it it is another chord
};
[[nodiscard]] Frame frame_of(const harmony::Chord& chord);

/// The guitar that he plays.
[[nodiscard]] const guitar::Fretboard& board();

/// Semitones above a root.
[[nodiscard]] int above(const harmony::Chord& chord, harmony::MidiNote note);
[[nodiscard]] Intervals intervals_of(const harmony::Chord& chord, const guitar::Shape& shape);

/// A grip that may be taken for one of that chord: all it sounds is in the chord's own grips, or it
/// has the guide tones and nothing plainly wrong, as an E♭maj7 for a Cm7.
[[nodiscard]] bool would_do(const guitar::Shape& shape, const harmony::Chord& chord);

/// The grip has a tone that is plainly wrong there.
[[nodiscard]] bool clashes(const guitar::Shape& shape, const InContext& where);

}  // namespace compline::simulate
