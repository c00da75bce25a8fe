#pragma once

#include <compline/listen/note.hpp>

#include <vector>

namespace compline::listen {

/// A note as the pickup reported it.
struct ReportedNote {
    Note note;
    bool ended = false;  ///< by a note-off
};

/// A note whose note-off was lost must not sound into all that comes after: ends it with what was
/// struck beside it; alone, with the next chord. `reported` are in order of onset; `end`: of the
/// take. Gives how many were ended.
int end_the_unended(std::vector<ReportedNote>& reported, time::Seconds end);

}  // namespace compline::listen
