#pragma once

#include <compline/midi/message.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::outside {

/// The most that a MIDI pickup sends: six strings in vibrato, sent as pitch bends, 3,000 of them a
/// second in all (a cable carries about 1,000; USB carries this). They stay within 20 cents, of
/// MIDI 1.0's two semitones, so that no tone becomes another.
inline constexpr int flood_a_second = 3000;

/// Bends on channels 1 to 6 in turn, in order of time, from `from` (0 or later) up to, not
/// including, `to`.
[[nodiscard]] std::vector<midi::TimedMessage> flood(time::Seconds from, time::Seconds to);

/// What was played, in order of time, with such bends among it; a note comes before a bend of the
/// same moment.
[[nodiscard]] std::vector<midi::TimedMessage> flooded(const std::vector<midi::TimedMessage>& played,
                                                      time::Seconds from, time::Seconds to);

}  // namespace compline::outside
