#pragma once

#include "grid.hpp"
#include "landing.hpp"
#include "sounding.hpp"

#include <compline/assess/assessment.hpp>

#include <set>
#include <vector>

namespace compline::assess {

/// A chord or dead strum against the grid: which eighth it was meant for, and how far off.
struct Asynchrony {
    std::size_t strum = 0;
    std::int64_t eighth = 0;  ///< from the first beat
    time::Seconds off;        ///< + is late
    time::Seconds at;
    bool off_beat = false;
};

/// So many beats in, as eighths from the first beat of all.
[[nodiscard]] std::int64_t eighth_of(const Target& target, double beats_in);

[[nodiscard]] Asynchrony against_grid(std::size_t strum, time::Seconds t,
                                      const roadmap::RoadMap& map);

/// All chords and dead strums from a beat before the start until `end`.
[[nodiscard]] std::vector<Asynchrony> asynchronies(const std::vector<SoundingStrum>& strums,
                                                   const roadmap::RoadMap& map, time::Seconds end);

/// Bars of silence in a row, and where those beside them begin and end.
struct SilentRun {
    std::int64_t first_bar = 1;  ///< in order of playing, from 1
    int bars = 0;
    time::Meter meter{4};  ///< of the first
    time::Ticks bar_before;
    time::Ticks from;
    time::Ticks back;  ///< the band comes back on this beat, where it does
    time::Ticks bar_after;
};
[[nodiscard]] std::vector<SilentRun> silent_runs(const roadmap::RoadMap& map);

/// Without the band a player may wander far enough for another eighth to lie nearer than the
/// one that was meant. In bars of silence, and in the bar after, a strum belongs to the eighth
/// that leaves it as far off as the strum before it.
void follow_through_silence(std::vector<Asynchrony>& all, const std::vector<SilentRun>& silences,
                            const Grid& grid);

/// A change's landing is late or early on the beat that it was judged against, also where another
/// beat or off-beat lies nearer. Gives the eighths of changes that were pushed: in a rhythm that
/// says where strums are due, nothing is missing there.
[[nodiscard]] std::set<std::int64_t> give_landings_their_beats(
    std::vector<Asynchrony>& all, const std::vector<Change>& changes,
    const std::vector<std::optional<Landing>>& landings, const Grid& grid, const Targets& targets);

[[nodiscard]] TimeKeeping keep_time(const std::vector<Asynchrony>& all,
                                    const std::set<std::int64_t>& pushed,
                                    const std::vector<SilentRun>& silences, const Grid& grid,
                                    time::Seconds end);

/// The median asynchrony of strums that land no change: how far back this player likes to sit.
[[nodiscard]] std::optional<time::Seconds> usual_lateness(const std::vector<Asynchrony>& all,
                                                          const std::vector<SoundingStrum>& strums);

}  // namespace compline::assess
