#include "lines_of_bars.hpp"

#include "chart_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

void add_lines(const yaml::TreeNode& item, std::size_t place, const yaml::FileReading& reading,
               std::vector<yaml::TextLine>& lines) {
    if (item.kind == Kind::refused) return;
    if (item.kind != Kind::text) {
        const bool empty = item.kind == Kind::nothing;
        reading.problems.add(empty ? place : item.offset,
                             fmt::format("{} where a line of bars was expected: write it as a text "
                                         "such as \"F6 | D7 | Gm7 | C7\"",
                                         empty ? "an empty list item" : yaml::kind_name(item)));
        return;
    }
    auto more = chart_lines(item, reading.source, reading.problems);
    std::move(more.begin(), more.end(), std::back_inserter(lines));
}

}  // namespace

std::vector<yaml::TextLine> lines_of_bars(const yaml::TreeNode& bars, std::size_t place,
                                          const yaml::FileReading& reading) {
    std::vector<yaml::TextLine> lines;
    if (bars.kind == Kind::list) {
        for (const auto& item : bars.items) add_lines(item, bars.offset, reading, lines);
    } else if (bars.kind != Kind::nothing) {
        add_lines(bars, place, reading, lines);
    }
    return lines;
}

}  // namespace compline::chart
