#pragma once

#include <compline/roadmap/road_map.hpp>

#include <cstddef>
#include <vector>

namespace compline::assess {

using Target = roadmap::DueChange;

/// All changes of a road map that ends, and what may be played on each.
struct Targets {
    std::vector<Target> due;
    /// What may be played where; chords that the tune treats alike share one.
    std::vector<harmony::Palette> palettes;
    std::vector<std::size_t> palette_of;  ///< of each target, an index into `palettes`

    [[nodiscard]] std::size_t size() const { return due.size(); }
    [[nodiscard]] const harmony::Palette& palette(std::size_t target) const {
        return palettes[palette_of[target]];
    }
    /// When the target's chord ends: at the next change, at N.C., or with the music.
    [[nodiscard]] time::Ticks end(std::size_t target) const {
        return due[target].at + due[target].length;
    }
};

/// Those that are due from a position on.
[[nodiscard]] Targets find_targets(const roadmap::RoadMap& map, time::Ticks from,
                                   harmony::Strictness strictness);

}  // namespace compline::assess
