#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/map_reader.hpp>
#include <compline/yaml/text_lines.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>

namespace compline::yaml {

using Kind = TreeNode::Kind;

void refuse_comment_behind(const TreeNode& node, const FileReading& reading) {
    if (const auto hash = comment_behind(node, reading.source, true)) {
        reading.problems.add(*hash,
                             "YAML takes the rest of this line for a comment: put the value in "
                             "quotes, or a blank after the # of a comment");
    }
}

void refuse_duplicate_keys(const TreeNode& map, const FileReading& reading) {
    std::map<std::string_view, std::size_t> first;
    for (const auto& [key, value] : map.entries) {
        if (key.kind != Kind::text) continue;
        const auto [entry, is_new] = first.emplace(key.text, key.offset);
        if (is_new) continue;
        reading.problems.add(
            key.offset,
            fmt::format("{} stands here a second time: the first is in line {}, keep one of them",
                        text::quoted(key.text), reading.source.place(entry->second).line));
    }
}

std::string MapReader::unknown_key(const TreeNode& key, const std::vector<std::string>& known,
                                   const Renamed& renamed) const {
    if (key.kind != Kind::text) {
        return fmt::format("{} where a key of a {} was expected: the keys are {}", kind_name(key),
                           what_, text::listed(known));
    }
    for (const auto& [before, now] : renamed) {
        if (key.text == before) return fmt::format("{} is now {}: write {}:", before, now, now);
    }
    const auto near = text::nearest(key.text, known);
    return fmt::format(
        "{} is not a key of a {}: {}", text::quoted(key.text), what_,
        near ? "did you mean " + *near + "?" : "the keys are " + text::listed(known));
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

const TreeNode* MapReader::find(std::string_view key) const {
    for (const auto& [name, value] : map_.entries) {
        if (name.kind != Kind::text || name.text != key) continue;
        if (value.kind != Kind::nothing) return &value;
        reading_.problems.add(name.offset, fmt::format("{} has no value: write one behind the "
                                                       "colon",
                                                       text::quoted(key)));
        return nullptr;
    }
    return nullptr;
}

const TreeNode* MapReader::require(std::string_view key, std::string_view example) const {
    const bool absent = std::none_of(map_.entries.begin(), map_.entries.end(), [&](const auto& e) {
        return e.key.kind == Kind::text && e.key.text == key;
    });
    if (absent && reading_.complete) {
        reading_.problems.add(map_.offset, fmt::format("the {} has no {}: add a line such as `{}`",
                                                       what_, text::quoted(key), example));
    }
    return find(key);
}

bool MapReader::is_one_value(const TreeNode& node) const {
    if (node.kind == Kind::refused) return false;
    if (node.kind != Kind::text) {
        reading_.problems.add(node.offset,
                              fmt::format("{} where one value was expected", kind_name(node)));
        return false;
    }
    refuse_comment_behind(node, reading_);
    return true;
}

}  // namespace compline::yaml
