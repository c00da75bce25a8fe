#pragma once

#include <compline/chart/chart.hpp>
#include <compline/guitar/shape.hpp>
#include <compline/harmony/palette.hpp>

#include <optional>
#include <vector>

namespace compline::simulate {

// What a hand does with a chord, rightly or wrongly. Right and wrong are decided by palettes alone,
// never by the judge: a grip that some reading of the tune would accept is not a mistake.

/// What is accepted on a chord in a key whatever the chords around it may be: a tone foreign here
/// is foreign in any tune of that key.
[[nodiscard]] harmony::Palette widest_palette(const harmony::Chord& chord, const chart::Key& key);

/// What is accepted on a chord in any tune.
[[nodiscard]] harmony::Palette plainest_palette(const harmony::Chord& chord);

[[nodiscard]] harmony::PitchClasses sounding(const guitar::Shape& shape);

/// Strings that sound, less two for each foreign tone.
[[nodiscard]] int fit(const harmony::Palette& palette, const guitar::Shape& shape);
[[nodiscard]] int strings_of(const guitar::Shape& shape);
[[nodiscard]] int lowest_fret(const guitar::Shape& shape);
/// All of it moved along the neck; nothing where a string would leave the frets.
[[nodiscard]] std::optional<guitar::Shape> moved(const guitar::Shape& shape, int frets);

/// A chord change as a hand makes it: from a grip of one chord to a grip of the next.
struct HandChange {
    harmony::Chord from;
    guitar::Shape from_grip;
    harmony::Chord to;
    guitar::Shape grip;
    chart::Key key;

    /// The new grip tells the new chord from the old one.
    [[nodiscard]] bool tells() const;
    /// The old grip would also do for the new chord.
    [[nodiscard]] bool old_grip_will_do() const;
};

/// A grip with one thing wrong with it.
struct SpoiltGrip {
    guitar::Shape shape;
    int string = 1;                           ///< where
    int moved = 0;                            ///< frets from the right one, where there is one
    std::optional<harmony::Degree> left_out;  ///< what does not sound

    /// The tone on that string.
    [[nodiscard]] harmony::MidiNote note() const;
    /// On strings 5 and 6 a wrong tone is a wrong bass.
    [[nodiscard]] bool in_the_bass() const { return string >= 5; }
};

// Every way to spoil the grip of a change such that it is plainly wrong, and still plainly the new
// chord rather than the old one; string 6 first.

/// A finger one fret off that was not there before.
[[nodiscard]] std::vector<SpoiltGrip> with_finger_off(const HandChange& change);
/// A finger of the old grip that stays where it was, instead of moving (`moved` from the right
/// fret) or of leaving its string (0).
[[nodiscard]] std::vector<SpoiltGrip> with_stuck_finger(const HandChange& change);
/// A string that is not struck, and with it one defining tone lost.
[[nodiscard]] std::vector<SpoiltGrip> with_tone_left_out(const HandChange& change);

}  // namespace compline::simulate
