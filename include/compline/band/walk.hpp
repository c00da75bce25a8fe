#pragma once

#include <compline/harmony/pitch.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace compline::band {

/// The bass: E1, its lowest open string, to G3; and where it is at home, F1 to C3: on the two
/// lowest strings and the first frets of the others, as a bass under a small group is.
inline constexpr harmony::MidiNote lowest_bass{28};
inline constexpr harmony::MidiNote highest_bass{55};
inline constexpr harmony::MidiNote settled_low{29};
inline constexpr harmony::MidiNote settled_high{48};

/// By which intervals a note may go on to the next, or be come to from the last: bit 12 + n stands
/// for n semitones up, bit 12 - n for n down. No line leaps over an octave.
using Reach = std::uint32_t;

/// By one interval; up is positive.
[[nodiscard]] constexpr Reach by(int semitones) { return Reach{1} << (12 + semitones); }
/// By one interval up or down.
[[nodiscard]] constexpr Reach by_either(int semitones) { return by(semitones) | by(-semitones); }

inline constexpr Reach anywhere = 0x1FFFFFF;  ///< up to the octave
inline constexpr Reach by_semitone = by_either(1);
inline constexpr Reach by_step = by_semitone | by_either(2);
inline constexpr Reach by_step_or_third = by_step | by_either(3) | by_either(4);
/// A fifth, or the fourth that it is the other way.
inline constexpr Reach by_step_or_fifth = by_step | by_either(5) | by_either(7);

/// What a step of a bass line may be: a note, how little it is wanted (0 = most), how far it may go
/// from there, and from how far it may come.
struct Choice {
    harmony::MidiNote note;
    int cost = 0;
    Reach reach = anywhere;
    Reach from = anywhere;
};

struct Step {
    std::vector<Choice> choices;  ///< one at least (asserted), each note once, in the bass's range
    bool walks = true;            ///< the shape of the line counts here: see walk()
    bool repeats = false;         ///< the note before costs nothing here
    bool stays = false;           ///< ... and may sound a third time running, and on
};

/// Where a line stands already: its last notes (two at most), how far it may go from the last, and
/// whether it turned at the last but one.
struct LineSoFar {
    std::vector<harmony::MidiNote> notes;
    Reach reach = anywhere;
    bool turned = false;
};

/// The line of least cost through the steps: steps and thirds rather than leaps, hardly ever a note
/// twice running and never three times; where the line walks, no see-saw between two notes, few
/// turns, no turn right after a turn, and after a leap back rather than on. Found over all lines at
/// once (dynamic programming over pairs of notes and whether the line turned between them), so no
/// early choice leads into a corner: of all lines that keep their reach none costs less. What no
/// line can keep is given up at that one step. Costs are whole numbers and ties go to the note
/// named first: the same steps give the same line everywhere. With a lead the line goes on from
/// there; its notes are not in the result, which has a choice of each step.
[[nodiscard]] std::vector<Choice> walk(const std::vector<Step>& steps, const LineSoFar& lead = {});

/// A note of a line, as one hears whether it keeps moving.
struct LineNote {
    int note = 0;
    std::int64_t bar = 0;
    bool walks = false;  ///< in a walking bar
    bool given = false;  ///< a chord starts here, or a kick or the end asks for it
    bool joins = false;  ///< comes right after the one before
};

/// Where a walking line stands still: from one note to another, both included, as indices.
struct Stall {
    std::size_t from = 0;
    std::size_t to = 0;
    bool operator==(const Stall&) const = default;
};

/// All of them; see bass.hpp for the rule. given_next: so many given notes follow right away, which
/// nobody may count on: the line is to keep the rule without them.
[[nodiscard]] std::vector<Stall> stalls_of(const std::vector<LineNote>& line,
                                           std::ptrdiff_t given_next);

/// The lead that a line leaves which went on from an earlier one.
[[nodiscard]] LineSoFar lead_after(const LineSoFar& lead, const std::vector<Choice>& line);

}  // namespace compline::band
