#include "duplicates.hpp"

#include "words.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <map>
#include <string_view>

namespace compline::chart {

void refuse_duplicate_keys(const YamlNode& map, const Reading& reading) {
    std::map<std::string_view, std::size_t> first;
    for (const auto& [key, value] : map.entries) {
        if (key.kind != YamlNode::Kind::text) continue;
        const auto [entry, is_new] = first.emplace(key.text, key.offset);
        if (is_new) continue;
        reading.problems.add(
            key.offset,
            fmt::format("{} stands here a second time: the first is in line {}, keep one of them",
                        in_quotes(key.text), reading.source.place(entry->second).line));
    }
}

}  // namespace compline::chart
