#pragma once

#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <vector>

namespace compline::midi {

/// The events of all tracks in the order in which they sound: by tick, within a tick as they
/// stand in the file. They stay the file's own. Throws text::BadInput for format 2 with several
/// tracks.
[[nodiscard]] std::vector<const TrackEvent*> in_order(const File& file);

}  // namespace compline::midi
