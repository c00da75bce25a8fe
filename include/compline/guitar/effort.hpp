#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>
#include <compline/guitar/hand.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/time/units.hpp>

#include <optional>

namespace compline::guitar {

// What a plan of voicings pays: how a grip lies in the hand and how it sounds, and what it takes to
// get from one to the next. Common practice, no source: the weights are ours, set by playing the
// demo charts' plans and asking what a hand would rather do. Each has its reason beside it.

/// Hundredths of a finger that lifts and comes down on the string beside it.
using Cost = int;

namespace weight {

// Getting there. What is not named here costs nothing; above all a finger that stays.

/// A guide finger, a fret: it never leaves its string and needs no eyes.
inline constexpr Cost slide = 25;
/// A finger that was in the air comes down: it could be ready above its string before.
inline constexpr Cost land = 60;
/// A finger lifts and is not needed any more.
inline constexpr Cost lift = 25;
/// The same finger lifts and comes down on another string: nothing can be made ready.
inline constexpr Cost hop = 90;
inline constexpr Cost hop_string = 10;  ///< for each string crossed
/// A finger lies down as a barre, or rolls up from one, or changes the strings it covers.
inline constexpr Cost barre = 40;
inline constexpr Cost roll = 30;
/// A grip that slides as it is, the same fingers on the same strings: the hand keeps its form and
/// only the arm moves. The cheapest move there is for a fret or two; beyond, the arm must aim.
inline constexpr Cost whole_grip = 8;
inline constexpr int whole_grip_frets = 2;
inline constexpr Cost whole_grip_further = 55;  ///< each further fret, scaled by time
/// The hand shifts, a fret, scaled by time: the arm must aim. Half where a finger that stays or
/// slides shows the way.
inline constexpr Cost shift = 40;
/// A string more or less than before: the right hand and the mutes must change.
inline constexpr Cost string_set = 15;
/// The top voice is what listeners follow: each semitone beyond a major third.
inline constexpr Cost top_leap = 15;
inline constexpr int top_third = 4;
/// Voices are heard to move: each semitone of the top voice.
inline constexpr Cost top_motion = 3;

// Lying there.

/// Fingers want a fret each. Each fret that two neighbours are further apart, or closer; index and
/// middle part most easily.
inline constexpr Cost index_stretch = 25;
inline constexpr Cost stretch = 45;
inline constexpr Cost crowd = 15;
inline constexpr Cost little_finger = 8;  ///< the weakest
inline constexpr Cost no_index = 15;      ///< the index is where the hand knows its place by
/// Frets are wider near the nut: for each fret of span below fret 5.
inline constexpr Cost low_stretch = 12;
inline constexpr Cost index_barre = 20;  ///< and for each of its strings
inline constexpr Cost barre_string = 12;
inline constexpr Cost other_barre = 70;  ///< a flattened middle, ring or little finger
inline constexpr Cost thumb = 60;
inline constexpr Cost open_string = 40;  ///< it rings on when the hand lets go
inline constexpr Cost inner_mute = 20;   ///< it must be kept still
inline constexpr Cost high_fret = 15;    ///< each fret beyond 10: little room, a thin sound
inline constexpr int high_frets = 10;
inline constexpr Cost away_from_wish = 20;  ///< each fret from the fret wished for

// Sounding.

inline constexpr Cost two_notes = 110;  ///< thin for a whole chorus
inline constexpr Cost three_notes = 15;
inline constexpr Cost five_notes = 80;    ///< thick beside a bass
inline constexpr Cost doubled = 70;       ///< a tone that is there already adds nothing
inline constexpr Cost plain_fifth = 25;   ///< nor does the fifth of a chord with a seventh or sixth
inline constexpr Cost unwritten = 50;     ///< a tone that the chart does not ask for
inline constexpr Cost altered = 140;      ///< and which is an alteration: more than a colour
inline constexpr Cost left_out = 100;     ///< a tension that it asks for
inline constexpr Cost minor_ninth = 160;  ///< between two voices, but for a written ♭9 on the root
inline constexpr Cost minor_second = 40;  ///< side by side they rub
/// Thirds and seconds below C3 are mud: and for each semitone lower.
inline constexpr Cost low_third = 50;
inline constexpr Cost low_third_semitone = 10;
/// Below C3 a lowest note that is not the bass's own quarrels with the bass.
inline constexpr Cost low_stranger = 40;
/// Above A4 is the soloist's ground: for each semitone of the top voice.
inline constexpr Cost high_voice = 10;
inline constexpr int highest_voice = 69;
/// A root above its own major seventh sounds like a mistake.
inline constexpr Cost root_over_maj7 = 120;
/// The root, or the slash bass, not lowest though liked there; lowest though disliked.
inline constexpr Cost low_root = 90;

}  // namespace weight

/// Whether the root (or the slash bass) should be the lowest note.
enum class LowRoot { liked, indifferent, disliked };

/// How a grip lies in the hand, wherever it comes from.
[[nodiscard]] Cost comfort_cost(const Grip& grip, int capo);

/// How a shape sounds as its chord.
[[nodiscard]] Cost sound_cost(const Fretboard& fretboard, const Shape& shape,
                              const harmony::Palette& palette, LowRoot low_root);

/// How much an unguided shift of the hand weighs when so much time is left from one change to the
/// next, in 64ths: 64 where there is a second, twice as much in half of it; 51 to 160.
[[nodiscard]] int haste(time::Seconds left);

/// What it takes to get from one grip to another.
[[nodiscard]] Cost reach_cost(const Fretboard& fretboard, const Grip& from, const Grip& to,
                              int haste);

}  // namespace compline::guitar
