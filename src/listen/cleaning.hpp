#pragma once

#include <compline/listen/listener.hpp>

#include <vector>

namespace compline::listen {

/// Takes out what a MIDI pickup adds and nobody played: flickers, double triggers, ghosts, in that
/// order. `notes` are in order of onset before and after.
Cleaned clean(std::vector<Note>& notes, const Settings& settings);

}  // namespace compline::listen
