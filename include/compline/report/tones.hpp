#pragma once

#include <compline/harmony/chord.hpp>

#include <string>

namespace compline::report {

/// What the judge takes for right on a chord, for a reader who knows notes, not tables:
///
///     C9
///       as written                1 C   3 E   5 G   ♭7 B♭   9 D
///       must sound                3 E   ♭7 B♭
///         in strictness written   9 D
///       may sound too             13 A
///       falling a fifth, semitone ♯11 F♯   ♭13 A♭
///       for two beats or more     11 F until the third sounds
///       substitutions             ♭5 G♭   ♭9 D♭   ♯9 D♯   ♭13 A♭
///       never                     7 B   ♭9 D♭   ♯9 D♯
///
/// One line a ground (harmony::Ground) that grants anything, 80 columns at most. Ends with a
/// newline.
[[nodiscard]] std::string tones_text(const harmony::Chord& chord);

}  // namespace compline::report
