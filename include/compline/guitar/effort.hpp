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
/// And for each fret beyond three, whatever guides it: no hand that plays time leaps there and back
/// within a chorus. Only a grip that would not say its chord is worse.
inline constexpr Cost leap = 120;
inline constexpr int leap_frets = 3;
/// A string more or less than before: the right hand and the mutes must change.
inline constexpr Cost string_set = 15;
/// The top voice is what listeners follow: each semitone beyond a major third.
inline constexpr Cost top_leap = 15;
inline constexpr int top_third = 4;
/// Voices are heard to move: each semitone of the top voice.
inline constexpr Cost top_motion = 3;
/// Each voice, counted from the top one down, moves by step or stays: each semitone beyond two.
inline constexpr Cost voice_leap = 6;
inline constexpr int voice_step = 2;
/// While a chord lasts and its voicing moves, the top voice is a line: it goes on the way it went,
/// by a step or a third. Standing still or turning costs more than any inversion does.
inline constexpr Cost line_broken = 700;
/// And the voices below go with it, into another inversion: each that does not.
inline constexpr Cost voice_left_behind = 250;
inline constexpr Cost voice_lost = 400;  ///< or won: a line has as many voices all along

// Lying there.

/// Fingers want a fret each. Each fret that two neighbours are further apart, or closer; index and
/// middle part most easily.
inline constexpr Cost index_stretch = 40;
inline constexpr Cost stretch = 60;
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
inline constexpr Cost inner_mute = 90;   ///< it must be kept still
inline constexpr Cost high_fret = 15;    ///< each fret beyond 10: little room, a thin sound
inline constexpr int high_frets = 10;
inline constexpr Cost away_from_wish = 20;  ///< each fret from the fret wished for
/// Where nobody says: the middle of the neck, where hands are at home. Each fret that the hand lies
/// outside.
inline constexpr Cost away_from_home = 20;
inline constexpr int home_low = 4;
inline constexpr int home_high = 8;

// Sounding.

// First of all a grip says its chord. What the chart writes is what the composer heard: a grip
// without it costs more than any finger's travel. What it does not write is the soloist's to add.

inline constexpr Cost left_out = 500;   ///< a tension or a sixth that the chart asks for
inline constexpr Cost unwritten = 190;  ///< a tone that it does not ask for
/// The same among four notes, where a root or a fifth is at hand for the fourth.
inline constexpr Cost unwritten_of_four = 250;
inline constexpr Cost outside_key = 40;  ///< and which is not of the key either
inline constexpr Cost altered = 140;     ///< and which is an alteration: more than a colour
/// But a ♭9 on a dominant that falls into a minor chord is of that key: in all.
inline constexpr Cost flat_nine_into_minor = 70;
/// 6 for a maj7 sounds as well, and better under a root; but what is written is tried first. At 50
/// a third of all major sevenths lost their 7, at 80 one in six, most with the root above
/// (2026-11-29).
inline constexpr Cost six_for_seven = 80;
/// 7 on a sixth chord is another chord: the sixth was written to keep the 7 away from a root above.
inline constexpr Cost seven_on_six = 200;
/// All tones of a seventh chord on another root, without this chord's own third or seventh: x8978x
/// for Dm9 is G7. With them it is a rootless ninth, which a bass below puts right.
inline constexpr Cost another_chord = 300;
inline constexpr Cost rootless_ninth = 60;
/// Three notes or fewer of a seventh or sixth chord, and its third or its seventh is not there.
inline constexpr Cost no_guide_tone = 400;
/// On the ladder of styles (see VoicingStyle) a grip keeps the guide tones where the line has them:
/// each string that does not. What is learnt on one step stays on the next.
inline constexpr Cost leaves_line = 240;
/// A change whose point is one new tone (B♭7 to B°7: the B), and the grip does not have it.
inline constexpr Cost hidden = 500;
/// Nor is such a change heard where the same notes are held, though the new tone was among them.
inline constexpr Cost held = 300;

// Then it is clear, small and well spread.

inline constexpr Cost two_notes = 250;  ///< thin for a whole chorus
inline constexpr Cost three_notes = 15;
inline constexpr Cost five_notes = 80;    ///< thick beside a bass
inline constexpr Cost doubled = 150;      ///< a tone that is there already adds nothing
inline constexpr Cost plain_fifth = 25;   ///< nor does the fifth of a chord with a seventh or sixth
inline constexpr Cost minor_ninth = 300;  ///< between two voices, but for the ♭9 on its root
/// Side by side a semitone rubs; less where the symbol asks for it: one of the two is a written
/// alteration (♭9 and root, ♯9 and 3, ♯11 and 5).
inline constexpr Cost minor_second = 120;
inline constexpr Cost minor_second_asked = 20;
/// Four notes that are no close voicing with its second, its third or its second and fourth voice
/// from the top an octave down, the spacings that hands and ears know.
inline constexpr Cost odd_spacing = 50;
/// A 7 or 9 below D3 at the bottom makes the bass's root sound wrong.
inline constexpr Cost low_colour = 60;
inline constexpr int low_colour_below = 50;
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

/// What the tune and the player ask of a chord's sound in its place.
struct InPlace {
    LowRoot low_root = LowRoot::indifferent;
    bool into_minor = false;      ///< a dominant that falls into a minor chord
    harmony::PitchClasses key;    ///< the scale of the key; none: unknown
    harmony::PitchClasses point;  ///< what is new in the change to it; see point_of()
    /// What a tone costs that nobody wrote; 0: colours are asked for, and having none costs.
    Cost unwritten = weight::unwritten;
    bool operator==(const InPlace&) const = default;
};

/// How a shape sounds as its chord.
[[nodiscard]] Cost sound_cost(const Fretboard& fretboard, const Shape& shape,
                              const harmony::Palette& palette, const InPlace& place);

/// The point of a change: what tells the new chord (defining tones, written tensions and sixths,
/// altered fifths), less what the old one had. A grip without any of these hides the change.
[[nodiscard]] harmony::PitchClasses point_of(const harmony::Chord& from, const harmony::Chord& to);

/// How much an unguided shift of the hand weighs when so much time is left from one change to the
/// next, in 64ths: 64 where there is a second, twice as much in half of it; 51 to 160.
[[nodiscard]] int haste(time::Seconds left);

/// Where the top voice is to go while a chord lasts.
enum class Line { free, up, down };

/// What is known of a move before it is chosen.
struct WayIn {
    int haste = 64;  ///< see haste()
    Line line = Line::free;
    bool news = false;  ///< the change has a point, see point_of(): a grip that stays hides it
    bool operator==(const WayIn&) const = default;
};

/// What it takes to get from one grip to another.
[[nodiscard]] Cost reach_cost(const Fretboard& fretboard, const Grip& from, const Grip& to,
                              const WayIn& way_in);

}  // namespace compline::guitar
