#pragma once

#include <compline/listen/note.hpp>

#include <span>
#include <vector>

namespace compline::listen {

/// Notes struck together. `notes` are in order of onset; never empty.
struct Strum {
    std::vector<Note> notes;

    [[nodiscard]] time::Seconds first() const { return notes.front().on; }
    [[nodiscard]] time::Seconds last() const { return notes.back().on; }
    [[nodiscard]] time::Seconds spread() const { return last() - first(); }

    /// Two strings or more.
    [[nodiscard]] bool is_chord() const { return notes.size() >= 2; }
    /// A dead strum: two or more strings within 40 ms, all shorter than 60 ms. For time, not tones.
    [[nodiscard]] bool is_chunk() const;
    /// One note on string 6 or 5, or below D3 where strings are not known.
    [[nodiscard]] bool is_bass() const;
    /// Every note of it was reached by sliding.
    [[nodiscard]] bool is_slide() const;
};

/// Groups notes (in order of onset) into strums: what starts within 60 ms of the first; a rake in
/// string order, no gap over 60 ms, up to 120 ms; an arpeggio of three strings or more in their
/// order, at an even pace with no gap over 250 ms, all of which ring on beyond its last. A second
/// note on one string starts a new strum. A finger that slides while others are struck belongs to
/// their strum (2026-11-26).
[[nodiscard]] std::vector<Strum> group_strums(std::span<const Note> notes);

}  // namespace compline::listen
