#pragma once

#include <compline/chart/chart.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

// A chart in another key. What comes out has six sharps or flats at most: nobody reads C♯ where D♭
// would do.

/// Sharps of its signature; negative: flats.
[[nodiscard]] int sharps_of(const Key& key);

/// By the name that has fewer sharps or flats, where it has more than six: D♭ for C♯, B♭m for A♯m.
/// F♯ and G♭, D♯m and E♭m stay as they are.
[[nodiscard]] Key readable(Key key);

/// The key that a player asks for, for a tune of this key: "G" is G minor for a minor tune, as is
/// "Gm". Throws text::BadInput, also for another mode: a tune is moved, not rewritten.
[[nodiscard]] Key read_key_for(const Key& tune, std::string_view text);

/// The key so many semitones higher; of two names (F♯ or G♭) the one that is nearer in fifths,
/// where fewer chords get names that nobody looks for; of equals the one with flats.
[[nodiscard]] Key key_apart(const Key& key, int semitones);

/// What a guitarist with a capo on this fret thinks of where a chord sounds in this key.
[[nodiscard]] harmony::Chord shape_of(const harmony::Chord& chord, const Key& key, int capo);

struct Transposed {
    Chart chart;
    /// Pinned voicings that are not in it, in words: "voicing 1 of 3 is left out: ...".
    std::vector<std::string> left_out;
};

/// The chart in another key of the same mode (asserted): chords, the keys of sections, and the
/// voicings that it asks for, whose frets move with the chords, the nearer way along the neck or,
/// where that has no room between fret 1 and `last_fret`, an octave from it. An open string does
/// not move: such a voicing is left out. A section whose key would have seven sharps or more has
/// its other name, and its chords go with it.
[[nodiscard]] Transposed transposed(Chart chart, const Key& into, int last_fret);

}  // namespace compline::chart
