#pragma once

#include "support/catch.hpp"

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

/// The words for a result of calibration that is refused for this reason, in lines of a terminal's
/// width.
template <typename Found, typename Fault>
std::string refused_words(const Found& found, Fault fault) {
    CHECK(found.fault == fault);
    CHECK_FALSE(found.is_known());
    auto words = in_words(found);
    CHECK(widest_line(words) <= 80);
    return words;
}

inline bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace compline::tests
