#pragma once

#include <algorithm>
#include <vector>

namespace compline::assess {

/// Of one value at least.
[[nodiscard]] inline double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto n = values.size();
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

}  // namespace compline::assess
