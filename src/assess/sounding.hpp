#pragma once

#include "grid.hpp"

#include <compline/assess/read_as.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/listen/strum.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace compline::assess {

/// A strum with all that sounds after it: its own notes, and the strings that go on ringing.
struct SoundingStrum {
    listen::Strum strum;
    std::vector<listen::Note> sounding;   ///< what was struck first
    harmony::PitchClasses pitch_classes;  ///< of `sounding`
    harmony::PitchClasses struck;         ///< of the strum's own notes
    /// It brings a note that did not sound with the voiced strum before it.
    bool moves_grip = true;
    bool brings_tone = true;           ///< ... and one of another name, in any octave
    ReadAs read_as = ReadAs::passing;  ///< set by the reading
    bool by_sound = false;             ///< when it came is all that is known of it
    // Where other voiced strums are, as indices; filled by link_voiced().
    std::optional<std::size_t> voiced_before;  ///< the last one before this
    std::size_t first_of_grip = 0;  ///< of the same tones in a row, this one being voiced and last
    std::size_t next_grip = 0;      ///< the next one of other tones; the end where there is none

    [[nodiscard]] time::Seconds first() const { return strum.first(); }
    [[nodiscard]] time::Seconds last() const { return strum.last(); }
    /// Struck to keep time: a chord or a dead strum, as far as can be told.
    [[nodiscard]] bool keeps_time() const { return by_sound || strum.is_chord(); }
    /// A chord of two notes or more that was meant to ring.
    [[nodiscard]] bool is_voiced() const { return strum.is_chord() && !strum.is_chunk(); }
};

/// Strums of notes in order of onset, each with its sounding set: what sounds from its first onset
/// to 30 ms after its last, a string's newest note only, and of what rang before no more than 16
/// notes, the newest. What ends within the ring limit after the first onset belongs to the strum
/// before and to no other.
[[nodiscard]] std::vector<SoundingStrum> sounding_strums(const std::vector<listen::Note>& notes,
                                                         const Grid& grid);

/// Tells each strum where the voiced strums beside it are.
void link_voiced(std::vector<SoundingStrum>& strums);

/// Notes that sound at `t` and began before `before`, of notes in order of onset.
[[nodiscard]] std::vector<listen::Note> ringing_at(const std::vector<listen::Note>& notes,
                                                   time::Seconds t, time::Seconds before);

[[nodiscard]] inline bool has(const harmony::PitchClasses& set, int pitch_class) {
    return set[static_cast<std::size_t>(pitch_class)];
}

[[nodiscard]] harmony::PitchClasses pitch_classes_of(const std::vector<listen::Note>& notes);

}  // namespace compline::assess
