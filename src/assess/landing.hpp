#pragma once

#include <compline/time/units.hpp>

#include <cstddef>

namespace compline::assess {

/// Where a change landed.
struct Landing {
    std::size_t strum = 0;  ///< index of the strum whose sounding set is judged
    time::Seconds first;    ///< onset that is judged: the pick, or a slide's arrival
    time::Seconds last;
};

}  // namespace compline::assess
