#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/roadmap/road_map.hpp>

#include <cstdint>
#include <optional>

namespace compline::report {

/// A chord that is to come.
struct ChordToCome {
    std::optional<harmony::Chord> chord;  ///< none: N.C.
    std::int64_t bars_ahead = 0;          ///< 0: in the bar that is being played
    time::Ticks in_bar;                   ///< from that bar's bar line
};

/// The chord of a moment and the next other one.
struct DueChords {
    bool sounds = false;                ///< a bar is being played
    std::optional<harmony::Chord> now;  ///< none: N.C.
    std::optional<ChordToCome> next;    ///< none where it goes on for long, or to the end
};

/// How far ahead the next other chord is looked for: nobody waits for it with his eyes on the
/// screen.
inline constexpr int most_bars_ahead = 64;

/// At a place that is shown (see shown_place()), which before the beginning has the first chord as
/// the next one. `paused`: so it has where it is over too, and goes on.
[[nodiscard]] DueChords due_chords(const roadmap::RoadMap& map, const roadmap::PlayedPlace& place,
                                   bool paused);

}  // namespace compline::report
