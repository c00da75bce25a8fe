#include "map_reader.hpp"

#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>

namespace compline::chart {

using Kind = YamlNode::Kind;

void refuse_duplicate_keys(const YamlNode& map, const Reading& reading) {
    std::map<std::string_view, std::size_t> first;
    for (const auto& [key, value] : map.entries) {
        if (key.kind != Kind::text) continue;
        const auto [entry, is_new] = first.emplace(key.text, key.offset);
        if (is_new) continue;
        reading.problems.add(
            key.offset,
            fmt::format("{} stands here a second time: the first is in line {}, keep one of them",
                        in_quotes(key.text), reading.source.place(entry->second).line));
    }
}

std::string MapReader::unknown_key(const YamlNode& key, const std::vector<std::string>& known,
                                   const Renamed& renamed) const {
    if (key.kind != Kind::text) {
        return fmt::format("{} where a key of a {} was expected: the keys are {}", kind_name(key),
                           what_, listed(known));
    }
    for (const auto& [before, now] : renamed) {
        if (key.text == before) return fmt::format("{} is now {}: write {}:", before, now, now);
    }
    const auto near = nearest(key.text, known);
    return fmt::format("{} is not a key of a {}: {}", in_quotes(key.text), what_,
                       near ? "did you mean " + *near + "?" : "the keys are " + listed(known));
}

void MapReader::check_keys(const std::vector<std::string>& known, const Renamed& renamed) const {
    refuse_duplicate_keys(map_, reading_);
    for (const auto& [key, value] : map_.entries) {
        if (key.kind == Kind::refused) continue;
        if (std::find(known.begin(), known.end(), key.text) == known.end()) {
            reading_.problems.add(key.offset, unknown_key(key, known, renamed));
        }
    }
}

const YamlNode* MapReader::find(std::string_view key) const {
    for (const auto& [name, value] : map_.entries) {
        if (name.kind != Kind::text || name.text != key) continue;
        if (value.kind != Kind::nothing) return &value;
        reading_.problems.add(name.offset, fmt::format("{} has no value: write one behind the "
                                                       "colon",
                                                       in_quotes(key)));
        return nullptr;
    }
    return nullptr;
}

const YamlNode* MapReader::require(std::string_view key, std::string_view example) const {
    const bool absent = std::none_of(map_.entries.begin(), map_.entries.end(), [&](const auto& e) {
        return e.key.kind == Kind::text && e.key.text == key;
    });
    if (absent && reading_.complete) {
        reading_.problems.add(map_.offset, fmt::format("the {} has no {}: add a line such as `{}`",
                                                       what_, in_quotes(key), example));
    }
    return find(key);
}

bool MapReader::is_one_value(const YamlNode& node) const {
    if (node.kind == Kind::refused) return false;
    if (node.kind != Kind::text) {
        reading_.problems.add(node.offset,
                              fmt::format("{} where one value was expected", kind_name(node)));
        return false;
    }
    refuse_comment_behind(node, reading_.source, reading_.problems, false);
    return true;
}

AskedManner MapReader::read_manner() const {
    const auto bass = value_of(find("bass"), read_bass_wish).value_or(BassWish{});
    return {value_of(find("feel"), read_feel_name), value_of(find("drums"), read_drums_name),
            bass.bass, bass.plain, value_of(find("phrasing"), read_phrasing_name)};
}

}  // namespace compline::chart
