#pragma once

#include <compline/band/band.hpp>
#include <compline/band/walk.hpp>

#include <optional>
#include <vector>

namespace compline::band {

// A walking bass: one note a beat, read off the form (common practice, no source).
//   - where a chord starts: its root, or the bass note of a slash chord;
//   - on the third beat of a bar (the second of a waltz) while the chord lasts: its third or fifth;
//   - on the last beat before a change: a note a semitone, or a whole tone that belongs to the
//     chord, from the next root; the same before a seam, where the next time through begins;
//   - elsewhere: the chord's own tones, so that a bar that repeats a chord keeps moving;
//   - the very last beat is the root of the last chord: leading on would lead nowhere;
//   - N.C.: rests.
// Which of the notes allowed it is, and in which octave, walk() decides: see walk.hpp. The same
// form gives the same line; what could be left to chance alternates with the number of the bar.

/// A note sounds for this share of its written beat: legato, and never over the next one.
inline constexpr double note_share = 0.9;

/// Writes the line a time through at a time, for as long as the band plays. Each is chosen with the
/// next one in view, so that the end of one leads into the next; what was written stays. The form
/// must outlive it.
class BassWriter {
  public:
    /// times_through: 1 or more (asserted); none: until nobody asks for more.
    BassWriter(const chart::Form& form, chart::Passage passage, std::optional<int> times_through);

    /// The next time through, in order of time; positions count from the first one. Nothing but
    /// rests gives an empty list, and so does every call after the last time through.
    [[nodiscard]] std::vector<BassNote> next();

  private:
    const chart::Form& form_;
    chart::Passage passage_;
    std::optional<int> times_through_;
    int written_ = 0;
    Lead lead_;
};

/// The line for a passage played some times through (1 or more, asserted), in order of time.
[[nodiscard]] std::vector<BassNote> bass_line(const chart::Form& form, chart::Passage passage,
                                              int times_through);

}  // namespace compline::band
