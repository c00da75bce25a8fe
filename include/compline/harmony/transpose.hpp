#pragma once

#include <compline/harmony/chord.hpp>

namespace compline::harmony {

// Transposing, by interval: letters and semitones, so that a chord keeps its place in its key. What
// is spelled is counted in the row of fifths: ... B♭ -2, F -1, C 0, G 1, D 2 ...; a sharp is seven
// to the right, and twelve to either side sound the same. An interval is a way along that row.

/// Letters and semitones upwards: a major second {1, 2}, a minor third {2, 3}; a minor third down
/// {-2, -3}.
struct Interval {
    int letters = 0;
    int semitones = 0;
    bool operator==(const Interval&) const = default;
};

/// The nearer way, upwards where both are as far: C to G is a fourth down, C to F♯ a tritone up.
[[nodiscard]] Interval interval_between(const Spelling& from, const Spelling& to);

/// A note in the row of fifths, and back.
[[nodiscard]] int place_in_fifths(const Spelling& spelling);
[[nodiscard]] Spelling spelling_at(int place);

/// How far an interval goes along the row.
[[nodiscard]] int fifths_of(const Interval& interval);

/// A chord moved along the row of fifths, into a key with so many sharps (negative: flats). Tones
/// that its symbol names stay as they are. A root or bass that would have two sharps or flats is
/// the same tone by another name; and so is a root that would be C♭, F♭, E♯ or B♯, which nobody
/// looks for, unless the key has it: C♭ in G♭, E♯ in F♯ (2026-11-30). A bass keeps its interval
/// from the root, which is what it is read by: C♯7/E♯.
[[nodiscard]] Chord transposed(Chord chord, int fifths, int sharps);

}  // namespace compline::harmony
