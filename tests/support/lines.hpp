#pragma once

#include <algorithm>
#include <sstream>
#include <string>

namespace compline::tests {

/// Bytes of the longest line.
inline std::size_t widest_line(const std::string& text) {
    std::istringstream lines(text);
    std::size_t widest = 0;
    for (std::string line; std::getline(lines, line);) widest = std::max(widest, line.size());
    return widest;
}

}  // namespace compline::tests
