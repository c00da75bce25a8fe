#pragma once

#include <compline/chart/changes.hpp>

#include <vector>

namespace compline::assess {

using Target = chart::DueChange;

/// All changes of a route that ends, and what may be played on each.
struct Targets {
    std::vector<Target> due;
    std::vector<harmony::Palette> palettes;  ///< one a target, in the same order
};

[[nodiscard]] Targets find_targets(const chart::Form& form, const chart::Route& route,
                                   harmony::Strictness strictness);

}  // namespace compline::assess
