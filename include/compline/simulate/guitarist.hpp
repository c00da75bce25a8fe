#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/midi/message.hpp>
#include <compline/roadmap/road_map.hpp>

#include <vector>

namespace compline::simulate {

/// One strum of a script: written where, and played how far from there.
struct ScriptedStrum {
    time::Ticks at;          ///< written position, from the first beat of the first time through
    time::Seconds lateness;  ///< of its first note; + is late
    guitar::Shape shape;
    time::Seconds length;             ///< how long it rings, unless a string is struck again
    time::Seconds per_string{0.003};  ///< from one string to the next, from low to high
    int velocity = 80;
};

/// What a MIDI pickup with a channel per string (channel 1 = string 1) sends when a guitarist plays
/// a script: note-ons and note-offs in order of time, offs first. Exact: nothing is scattered here.
[[nodiscard]] std::vector<midi::TimedMessage> perform(const std::vector<ScriptedStrum>& script,
                                                      const roadmap::RoadMap& map,
                                                      const guitar::Fretboard& fretboard);

}  // namespace compline::simulate
