#pragma once

#include "reading.hpp"

#include <compline/listen/note.hpp>

#include <vector>

namespace compline::assess {

// Reading a take of which only the sound was heard: when something was struck, and nothing of its
// tones. Which strum was meant for which change is found by time alone, weighed over the whole take
// as in any reading (reading.hpp), with the same evidence of times: nearness to a place where this
// player lets chords in, and how rare leaving out is. It follows that
// - no chord stays empty while something was struck that no other chord needs, from the off-beat
//   before it to its last off-beat; what comes in its last eighth leads into the next;
// - struck on the off-beat before and on the beat, it is on the beat, unless this player pushes;
// - what is struck again, or stands for no change, is only that: old chord, approach and foreign
//   grip are words of tones, and are not said;
// - nothing is read as early by more than an eighth: the old chord, struck once more, is likelier.
//
// 2026-11-30. What lies between beats and off-beats (the notes of a line or of a broken chord, a
// stroke up) is read as a fill and left out of the player's time.

/// A strum for each onset; what follows the first of one within 60 ms belongs to it. `notes` are in
/// order of onset.
[[nodiscard]] std::vector<SoundingStrum> struck_by_sound(const std::vector<listen::Note>& notes);

/// end: when listening ended.
[[nodiscard]] Reading read_time_alone(const Targets& targets, std::vector<SoundingStrum> strums,
                                      const Grid& grid, const Player& player, time::Seconds end);

}  // namespace compline::assess
