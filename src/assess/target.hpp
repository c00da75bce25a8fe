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
    /// The last of those right behind it that may be left out, so that its chord may go on through
    /// them; itself where there is none.
    [[nodiscard]] std::size_t may_go_on_through(std::size_t target) const {
        while (target + 1 < size() && due[target + 1].optional && due[target + 1].from) ++target;
        return target;
    }
};

/// Those that are due from a position on.
[[nodiscard]] Targets find_targets(const roadmap::RoadMap& map, time::Ticks from,
                                   harmony::Strictness strictness);

}  // namespace compline::assess
