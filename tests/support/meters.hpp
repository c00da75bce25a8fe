#pragma once

#include <compline/time/meter.hpp>

#include <string>
#include <utility>
#include <vector>

namespace compline::tests {

/// A meter and what players call it.
struct NamedMeter {
    std::string name;
    time::Meter meter;
};

/// Every meter that charts have, and each in half-time and double-time where it has them.
inline std::vector<NamedMeter> every_meter() {
    std::vector<NamedMeter> meters;
    for (const auto& [above, below] : std::vector<std::pair<int, int>>{
             {2, 2}, {2, 4}, {3, 4}, {4, 4}, {5, 4}, {6, 4}, {6, 8}, {9, 8}, {12, 8}}) {
        const auto meter = *time::Meter::find(above, below);
        const auto name = std::to_string(above) + "/" + std::to_string(below);
        meters.push_back({name, meter});
        if (const auto half = meter.half_time()) meters.push_back({name + " half-time", *half});
        if (const auto twice = meter.double_time())
            meters.push_back({name + " double-time", *twice});
    }
    return meters;
}

}  // namespace compline::tests
