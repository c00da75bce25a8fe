#pragma once

#include <compline/time/meter.hpp>
#include <compline/time/units.hpp>

#include <string_view>
#include <vector>

namespace compline::roadmap {

/// Clicks in place of a drummer: on these positions of every bar, or of every second, third ... one
/// ("1/2" is beat 1 of every second bar).
struct Click {
    std::vector<time::Ticks> positions;  ///< from the bar line, ascending; one at least
    int every = 1;                       ///< bars, from the first on
    bool operator==(const Click&) const = default;
};

/// "2 4", "4", "2&", "1/2". Throws text::BadInput.
[[nodiscard]] Click read_click(std::string_view text, time::Meter meter);

}  // namespace compline::roadmap
