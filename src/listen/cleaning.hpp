#pragma once

#include <compline/listen/listener.hpp>

#include <functional>
#include <vector>

namespace compline::listen {

/// In order of onset, then of string.
void sort_by_onset(std::vector<Note>& notes);

using DelayOf = std::function<time::Seconds(const Note&)>;

// Takes out what a MIDI pickup adds and nobody played, and counts it. `notes` are in order of onset
// before and after.

/// What is seen on one string: double triggers, flickers, frets that a slide passes, rings on
/// lift-off. The times are those at which the unit sent it, since on one string one thing is sent
/// after the other.
void mend_strings(std::vector<Note>& notes, const Cleaning& rules, const DelayOf& delay_of,
                  Cleaned& cleaned);

/// What is seen beside other strings, by the times at which they were struck.
void drop_ghosts(std::vector<Note>& notes, const Cleaning& rules, Cleaned& cleaned);

}  // namespace compline::listen
