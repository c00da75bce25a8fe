#include "chart_reader.hpp"

#include "characters.hpp"
#include "chart_line.hpp"
#include "duplicates.hpp"
#include "values.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace compline::chart {

namespace {

using Kind = YamlNode::Kind;

const std::vector<std::string>& known_keys() {
    static const std::vector<std::string> keys = {"title", "key",   "meter", "tempo",
                                                  "feel",  "swing", "form",  "sections"};
    return keys;
}

std::string unknown_key(const YamlNode& key) {
    if (key.kind != Kind::text) {
        return fmt::format("{} where a key of a chart was expected: the keys are {}",
                           kind_name(key), listed(known_keys()));
    }
    const auto near = nearest(key.text, known_keys());
    return fmt::format(
        "{} is not a key of a chart: {}", in_quotes(key.text),
        near ? "did you mean " + *near + "?" : "the keys are " + listed(known_keys()));
}

}  // namespace

Chart ChartReader::read(const YamlTree& tree) {
    reading_.complete = tree.complete;
    if (tree.root && tree.root->kind == Kind::map) {
        read_map(*tree.root);
    } else if (tree.complete) {
        const bool empty = !tree.root || tree.root->kind == Kind::nothing;
        reading_.problems.add(tree.root ? tree.root->offset : 0,
                              fmt::format("{} where a chart was expected: a chart has a line "
                                          "`key: value` for each of title, key, tempo and sections",
                                          empty ? "nothing" : kind_name(*tree.root)));
    }
    return std::move(chart_);
}

void ChartReader::read_map(const YamlNode& root) {
    check_keys(root);
    read_header(root);
    read_feel_and_swing(root);
    read_bars(root);
}

void ChartReader::check_keys(const YamlNode& root) {
    refuse_duplicate_keys(root, reading_);
    const auto& known = known_keys();
    for (const auto& [key, value] : root.entries) {
        if (key.kind == Kind::refused) continue;
        if (std::find(known.begin(), known.end(), key.text) == known.end()) {
            reading_.problems.add(key.offset, unknown_key(key));
        }
    }
}

void ChartReader::read_header(const YamlNode& root) {
    chart_.title = value_of(require(root, "title", "title: Our Tune"), read_title).value_or("");
    chart_.key = value_of(require(root, "key", "key: F"), read_key).value_or(Key{});
    chart_.tempo =
        value_of(require(root, "tempo", "tempo: 132"), read_tempo).value_or(chart_.tempo);
    if (const auto* const node = find(root, "meter")) {
        const auto meter = value_of(node, read_meter);
        meter_is_known_ = meter.has_value();
        chart_.meter = meter.value_or(chart_.meter);
    }
}

void ChartReader::read_feel_and_swing(const YamlNode& root) {
    chart_.style.feel = value_of(find(root, "feel"), read_feel);
    const auto* const swing = find(root, "swing");
    chart_.swing_ratio = value_of(swing, read_swing).value_or(std::nullopt);
    if (chart_.swing_ratio && chart_.feel() == Feel::straight) {
        reading_.problems.add(
            swing->offset, "a swing for a straight feel: delete this line, or write feel: swing");
    }
}

void ChartReader::read_bars(const YamlNode& root) {
    Sections sections;
    sections.all_known = false;
    if (const auto* const node =
            require(root, "sections", "sections: {A: \"F6 | D7 | Gm7 | C7\"}")) {
        sections = read_sections(
            *node, meter_is_known_ ? std::optional(chart_.meter) : std::nullopt, reading_);
    }
    const auto* const form = find(root, "form");
    chart_.form =
        form != nullptr ? read_form(*form, sections, reading_) : form_in_file_order(sections);
    chart_.sections = std::move(sections.list);
}

const YamlNode* ChartReader::find(const YamlNode& root, std::string_view key) {
    for (const auto& [name, value] : root.entries) {
        if (name.kind != Kind::text || name.text != key) continue;
        if (value.kind != Kind::nothing) return &value;
        reading_.problems.add(name.offset, fmt::format("{} has no value: write one behind the "
                                                       "colon",
                                                       in_quotes(key)));
        return nullptr;
    }
    return nullptr;
}

const YamlNode* ChartReader::require(const YamlNode& root, std::string_view key,
                                     std::string_view example) {
    const bool absent = std::none_of(root.entries.begin(), root.entries.end(), [&](const auto& e) {
        return e.key.kind == Kind::text && e.key.text == key;
    });
    if (absent && reading_.complete) {
        reading_.problems.add(
            root.offset,
            fmt::format("the chart has no {}: add a line such as `{}`", in_quotes(key), example));
    }
    return find(root, key);
}

template <typename Value>
std::optional<Value> ChartReader::value_of(const YamlNode* node,
                                           Value (*reader)(std::string_view)) {
    if (node == nullptr || node->kind == Kind::refused) return std::nullopt;
    if (node->kind != Kind::text) {
        reading_.problems.add(node->offset,
                              fmt::format("{} where one value was expected", kind_name(*node)));
        return std::nullopt;
    }
    refuse_comment_behind(*node, reading_.source, reading_.problems, false);
    try {
        return reader(node->text);
    } catch (const BadValue& error) {
        reading_.problems.add(node->offset, error.what());
        return std::nullopt;
    }
}

}  // namespace compline::chart
