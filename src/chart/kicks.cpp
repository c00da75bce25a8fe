#include "kicks.hpp"

#include <algorithm>

namespace compline::chart {

std::size_t start_of_kicks(std::string_view token) {
    return std::min(token.find_first_of("!&"), token.size());
}

std::optional<Kicks> read_kicks(std::string_view marks) {
    if (marks.empty()) return Kicks{false, false};
    if (marks == "!") return Kicks{true, false};
    if (marks == "&!") return Kicks{false, true};
    if (marks == "!&!") return Kicks{true, true};
    return std::nullopt;
}

}  // namespace compline::chart
