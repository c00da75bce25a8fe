#pragma once

#include <compline/practice/report.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// What is to be mended, a line each: first what several faults have in common, then what happens
/// at one place again and again, then the rest. Every fault is in one of them.
struct FaultLines {
    std::vector<std::string> astray;   ///< stretches in which the player was elsewhere, in order
    std::vector<std::string> habits;   ///< the costliest first
    std::vector<std::string> places;   ///< over all times through, the costliest first
    std::vector<std::string> singles;  ///< in order of time

    [[nodiscard]] bool empty() const {
        return astray.empty() && habits.empty() && places.empty() && singles.empty();
    }
};

[[nodiscard]] FaultLines faults_of(const practice::Report& report);

/// Every fault by itself, in order of time.
[[nodiscard]] std::vector<std::string> all_faults(const practice::Report& report);

/// From so many changes on, being astray is one fault.
inline constexpr int long_stretch = 4;

/// "bars 17 to 21", "bar 4".
[[nodiscard]] std::string bars_of(const assess::Astray& stretch);

}  // namespace compline::report
