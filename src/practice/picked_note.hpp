#pragma once

#include <compline/listen/note.hpp>

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

namespace compline::practice {

/// Of the notes that one pick brought, in order, one at least: the first that has half the velocity
/// of the loudest. What comes before it is a ghost on another string; what comes behind it, too, or
/// the same pick sent twice.
[[nodiscard]] inline std::size_t picked_of(std::span<const listen::Note> notes,
                                           const std::vector<std::size_t>& of_one_pick) {
    int loudest = 0;
    for (const auto i : of_one_pick) loudest = std::max(loudest, notes[i].velocity);
    return *std::find_if(of_one_pick.begin(), of_one_pick.end(),
                         [&](std::size_t i) { return 2 * notes[i].velocity >= loudest; });
}

}  // namespace compline::practice
