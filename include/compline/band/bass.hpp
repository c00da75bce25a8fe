#pragma once

#include <compline/band/band.hpp>
#include <compline/band/bass_bar.hpp>
#include <compline/band/walk.hpp>

#include <cstdint>
#include <optional>
#include <vector>

namespace compline::band {

// The bass player (common practice, no source). What may be played where is written down here;
// which of it is played, and in which octave, is decided for the whole stretch at once: see walk().
// Chance adds a little to each note's cost, so that other seeds and every chorus bring other lines.
//
// Everywhere:
//   - What lasts longer than a beat, and what falls on a strong beat (the first; the third of 4/4,
//     the fourth of 5/4 and 6/4), is a chord tone: bass, root, third, fifth, sixth or seventh.
//     A major seventh's sixth is one.
//   - A tone that would make another chord of it (harmony::contradicted_tones) is on the last
//     quarter at most, a semitone from the next root. The minor third of a dominant that does not
//     name it rises a semitone, into its own third or the next root. The natural fifth of a
//     half-diminished or diminished chord and the third of a sus chord are not played at all.
//   - E1 to G3, at home from F1 to C3; with a guitar in the band a minor third and more below its
//     grip, where the bass has the note there. No leap over an octave, no note three times running.
//   - A chord that starts in mid-bar is struck.
// Walking: a note a beat.
//   - Where a chord starts: its root; of a slash chord the bass note. Seldom, where the chord lasts
//     more than two bars, its third or fifth, but never first in a stretch or after N.C.
//   - On the last beat before a chord starts: a note that leads there, by a semitone, a whole tone
//     or a fifth (or the fourth that a fifth is the other way). A whole tone and a fifth belong to
//     the scale of one of the chords, and a semitone does not rub against a tone that both chords
//     have, if it can be helped. On a strong beat it is a chord tone all the same.
//   - Of two chords in a bar over 200 bpm each is at times root and fifth or its root twice.
//   - A note that is no chord tone passes: the next one is a semitone or a whole tone away. On a
//     diminished chord it is a whole tone above one of the chord's, but never the semitone below
//     its root; on a dominant that falls a fifth it is of what the dominant falls to, where the
//     symbol does not say.
//   - The line does not stand still: eight notes running without a rest have four pitches at least
//     and the range of a fourth, unless more than four of them are given (a chord starts, a kick,
//     the end), and no bar is the same as the bar before unless all its notes are given.
// Two-feel: in 4/4 the root on 1 and on 3 the chord's own fifth, or before a change its third or
//   root; now and then a fourth quarter into the change. A chord of two beats has its root. In 3/4
//   in one: the root, or the fifth where the chord goes on. 6/4 is two bars of waltz; 5/4 three and
//   two.
// Meters: a bass walks in quarters, also in 2/2 and 2/4, in half-time in halves, in double-time in
//   eighths (a strong beat is then every quarter), in 6/8, 9/8 and 12/8 in dotted quarters, which
//   are long notes: strong are all beats of 6/8 and 9/8, the first and third of 12/8. There the
//   last eighth of a bar leads into a change now and then. In two: 2/2 (where nobody asks, 2/2 is
//   played so) as 4/4; 2/4 and 6/8 root on 1 and on the second beat what 4/4 has on 3; 12/8 the
//   same on its halves; 9/8 in one; half-time has two notes a bar too, double-time both halves of
//   the bar so. Bossa: 2/2 as 4/4, 2/4 1 and 2&, 6/8, 9/8, 12/8 beats and the last eighth. Chords
//   start on beats, where the beat is a half on quarters.
// Roots: where a chord starts, again at every bar line, in 5/4 and 6/4 also on 4; held meanwhile.
// Bossa (a feel, instead of walking and two-feel): 1 2& 3 4&: root, fifth, fifth, and with the last
//   eighth ahead of the next bar to its root (struck again on 1), to a note that leads there, or to
//   the fifth. In 3/4: 1 2& 3; 6/4 is twice that, 5/4 that and 4 5&.
// Ballads are played in the manner asked for, in longer notes with fewer short ones; straight as
// swing.
// Seasoning, where a bar has it (walking and two-feel): here and there a skip note on an off-beat,
//   which is the note before again or, within a chord, its root or fifth; or a dead note, muted and
//   soft. More often where a phrase ends; never into a kick, before N.C. or into the very last
//   note. The notes on the beats are the same without it.
// Kicks: at each a note, louder and shorter: the bass note of the chord that sounds, or, off the
//   beat and less than a beat before another starts, of that one. They go before all other rules.
// N.C. and `off`: nothing. The very last note is home.

/// A note sounds for this share of what is written, in hundredths: legato, and never over the next
/// one.
inline constexpr int note_share = 90;
inline constexpr int ballad_share = 97;
inline constexpr int kick_share = 75;
inline constexpr int dead_share = 25;  ///< of an eighth

/// Writes the line a stretch at a time. Each is chosen with the next one in view, so that the end
/// of one leads into the next; what was written stays.
class BassWriter {
  public:
    /// seed: other seeds, other lines; the same seed, form and manners: the same line on every
    /// machine.
    explicit BassWriter(std::uint64_t seed);

    /// The notes of the next stretch of bars (a time through, say: its first chord starts anew),
    /// positions from its first beat, in order of time.
    /// then: the bars that follow, as many as are known (two are looked at); empty: it is the end.
    /// home: pitch class on which the last note of all must end (the tonic) when `then` is empty;
    /// none: the root of the last chord.
    [[nodiscard]] std::vector<BassNote> next(const std::vector<BassBar>& bars,
                                             const std::vector<BassBar>& then,
                                             std::optional<int> home);

  private:
    std::uint64_t seed_;
    std::uint64_t stretches_ = 0;
    std::int64_t bars_ = 0;
    LineSoFar lead_;
    std::vector<LineNote> heard_;  // what was written last, as far back as the rules look
    std::vector<int> last_time_;   // the notes of the stretch before
    bool runs_on_ = false;         // the last note lasts to the next stretch
};

}  // namespace compline::band
