#pragma once

#include <compline/band/band.hpp>
#include <compline/midi/smf.hpp>

#include <vector>

namespace compline::band {

/// The melody of a Standard MIDI File, in quarter notes from its start, or from a marker
/// `compline:start`: the track named "Melody" (in any case), else the first that has notes off the
/// drums' channel 10. Its tempo is not used: a melody goes along with the band, and its own feel
/// stays, since nothing is swung that has been played. Notes that nobody ends last to the end of
/// their track. In order of time. Throws text::BadInput: no notes, more than most_melody_notes, or
/// ticks that count by the frame and not by the quarter.
[[nodiscard]] std::vector<MelodyNote> read_melody(const midi::File& file);

inline constexpr std::size_t most_melody_notes = 20000;

}  // namespace compline::band
