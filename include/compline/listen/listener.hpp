#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/listen/note.hpp>
#include <compline/midi/message.hpp>

#include <optional>
#include <span>
#include <vector>

namespace compline::listen {

// MIDI messages -> notes on strings. A MIDI pickup sends one channel a string (mono mode, mode 4)
// or everything on one channel; a slide comes as pitch bend and is folded into the fret.
//
// In src/listen, in this order: string_finder (which channel is which string), note_reader (keys
// that go down and up; channel follows the bend, lost_note_offs ends what nobody ended), cleaning
// (what nobody played). What is seen on one string is mended by the times at which the unit sent
// it; only then is each note moved by its own delay, and ghosts are sought beside what was struck
// with them.

/// Which channel is which string.
struct Strings {
    int first_channel = 1;          ///< channel of the string named next, 1 to 11
    bool low_string_first = false;  ///< first channel: string 6 (true) or string 1 (false)
    bool operator==(const Strings&) const = default;
};

/// How long a pitch takes to be found after the pick: a constant, cycles of its wave, and what its
/// string takes besides. Subtracted from every onset. A MIDI pickup needs a cycle or two; zero
/// where the onsets are already corrected, as in a take.
struct Delay {
    time::Seconds constant{0};
    double cycles = 0;
    /// Of strings 1, 2 ...: of those that are not named, and where the string of a note is not
    /// known, nothing.
    std::vector<time::Seconds> by_string = {};
    bool operator==(const Delay&) const = default;
};

/// Rules by which what nobody played is left out. Each can be turned off by a length of 0. The
/// figures come from what two real takes through a six-way pickup never contain: their shortest
/// real note is 64 ms, their shortest real repeat 119 ms. 60 ms and not 50: USB rounds to whole
/// milliseconds (2026-11-26; `tools/bench pickup` has the curves).
struct Cleaning {
    /// A brushed string: shorter than this and ...
    time::Seconds ghost{0.045};
    /// ... softer than this part of the median velocity of the strum it came with.
    double ghost_loudness = 0.35;
    /// The same note of the same string within this: one pick, sent twice.
    time::Seconds double_trigger{0.060};
    /// An overtone taken for the note, an octave or a twelfth off, for this long at most.
    time::Seconds flicker{0.060};
    /// An open string that begins within this of the end of a fretted note on it and ...
    time::Seconds lift_off{0.030};
    /// ... is softer than this part of that note: a finger that left it, not a pick.
    double lift_off_loudness = 0.5;
    bool operator==(const Cleaning&) const = default;
};

struct PickupSettings {
    guitar::Fretboard fretboard = guitar::Fretboard::standard();
    /// None: found from the notes themselves (see find_strings).
    std::optional<Strings> strings;
    bool one_channel = false;  ///< one channel for all, whatever the notes look like
    double bend_range = 2;     ///< semitones, until an RPN 0 says otherwise (MIDI 1.0's default)
    Delay delay;
    Cleaning cleaning;
};

struct Heard {
    std::vector<Note> notes;  ///< in order of onset, then of string
    Cleaned cleaned;
    std::optional<Strings> strings;  ///< what was used; none: one channel for all
};

/// Turns the messages of a take, in order of time, into notes. Messages that are neither notes nor
/// bends nor RPN 0 are passed over; a note that is never ended lasts until `end`.
[[nodiscard]] Heard hear(std::span<const midi::TimedMessage> messages,
                         const PickupSettings& settings, time::Seconds end);

/// A channel per string, when notes come on more than one channel, all within six neighbouring
/// ones, and every note can be played on its string; of the two string orders the one in which all
/// can, string 1 first when both do. Nothing otherwise.
[[nodiscard]] std::optional<Strings> find_strings(std::span<const midi::TimedMessage> messages,
                                                  const guitar::Fretboard& fretboard);

}  // namespace compline::listen
