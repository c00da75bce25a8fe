#include "kicks.hpp"

#include <algorithm>

namespace compline::chart {

std::size_t start_of_kicks(std::string_view token) {
    return std::min(token.find_first_of("!&"), token.size());
}

std::optional<KickMarks> read_kicks(std::string_view marks) {
    if (marks.empty()) return KickMarks{false, false};
    if (marks == "!") return KickMarks{true, false};
    if (marks == "&!") return KickMarks{false, true};
    if (marks == "!&!") return KickMarks{true, true};
    return std::nullopt;
}

}  // namespace compline::chart
