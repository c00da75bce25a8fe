#include "chart_reader.hpp"

#include "pin_reader.hpp"
#include "values.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/yaml/map_reader.hpp>
#include <compline/yaml/text_lines.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

const std::vector<std::string>& known_keys() {
    static const std::vector<std::string> keys = {
        "title", "key",      "meter", "tempo",    "feel",     "drums",   "bass",
        "swing", "phrasing", "form",  "road map", "voicings", "sections"};
    return keys;
}

bool swings(Feel feel) { return feel == Feel::swing || feel == Feel::ballad; }

/// A section or a part of the road map with a swinging feel of its own.
template <typename Part>
bool one_swings(const std::vector<Part>& parts) {
    return std::any_of(parts.begin(), parts.end(), [](const Part& part) {
        return part.manner.feel && swings(*part.manner.feel);
    });
}

/// Without the line end of a block scalar.
std::string read_text(std::string_view text) {
    return std::string(text.substr(0, text.find_last_not_of(" \n\r") + 1));
}

}  // namespace

Chart ChartReader::read(const yaml::Tree& tree) {
    reading_.complete = tree.complete;
    if (tree.root && tree.root->kind == Kind::map) {
        read_map(*tree.root);
    } else if (tree.complete) {
        const bool empty = !tree.root || tree.root->kind == Kind::nothing;
        reading_.problems.add(tree.root ? tree.root->offset : 0,
                              fmt::format("{} where a chart was expected: a chart has a line "
                                          "`key: value` for each of title, key, tempo and sections",
                                          empty ? "nothing" : yaml::kind_name(*tree.root)));
    }
    return std::move(chart_);
}

void ChartReader::read_map(const yaml::TreeNode& root) {
    const yaml::MapReader map(root, "chart", reading_);
    map.check_keys(known_keys(), {{"plan", "road map"}});
    read_header(map);
    const auto before = reading_.problems.count();
    read_bars(map);
    const bool has_a_form = reading_.complete && reading_.problems.count() == before;
    const auto way = read_road_map(map, has_a_form);
    read_voicings(map, has_a_form);
    read_swing(map, one_swings(chart_.sections) || (way && one_swings(way->stretches)));
}

void ChartReader::read_header(const yaml::MapReader& map) {
    chart_.title = map.value_of(map.require("title", "title: Our Tune"), read_title).value_or("");
    chart_.key = map.value_of(map.require("key", "key: F"), read_key).value_or(Key{});
    chart_.tempo =
        map.value_of(map.require("tempo", "tempo: 132"), read_tempo).value_or(chart_.tempo);
    chart_.manner = read_manner(map);
    if (const auto* const node = map.find("meter")) {
        const auto meter = map.value_of(node, read_meter);
        meter_is_known_ = meter.has_value();
        chart_.meter = meter.value_or(chart_.meter);
    }
}

void ChartReader::read_swing(const yaml::MapReader& map, bool a_part_swings) {
    const auto* const swing = map.find("swing");
    chart_.swing_ratio = map.value_of(swing, read_swing_ratio).value_or(std::nullopt);
    if (!chart_.swing_ratio || swings(chart_.feel()) || a_part_swings) return;
    reading_.problems.add(swing->offset,
                          fmt::format("a swing for a {} feel: delete this line, or write feel: "
                                      "swing",
                                      name_of(chart_.feel())));
}

void ChartReader::read_bars(const yaml::MapReader& map) {
    Sections sections;
    sections.all_known = false;
    if (const auto* const node = map.require("sections", "sections: {A: \"F6 | D7 | Gm7 | C7\"}")) {
        sections = read_sections(
            *node, meter_is_known_ ? std::optional(chart_.meter) : std::nullopt, reading_);
    }
    const auto* const form = map.find("form");
    const auto names =
        form != nullptr ? read_form(*form, sections, reading_) : form_in_file_order(sections);
    for (const auto& name : names) chart_.form.push_back({name, std::nullopt});
    chart_.sections = std::move(sections.list);
}

void ChartReader::read_voicings(const yaml::MapReader& map, bool has_a_form) {
    const auto* const node = map.find("voicings");
    if (node == nullptr) return;
    const auto form = has_a_form ? std::optional(unroll(chart_)) : std::nullopt;
    chart_.voicings = read_pins(*node, form ? &*form : nullptr, reading_);
}

std::optional<Way> ChartReader::read_road_map(const yaml::MapReader& map, bool has_a_form) {
    const auto* const node = map.find("road map");
    const auto road_map = map.value_of(node, read_text);
    if (!road_map || !has_a_form) return std::nullopt;
    chart_.road_map = *road_map;
    try {
        return chart::read_road_map(unroll(chart_), chart_.road_map);
    } catch (const text::BadInput& error) {
        reading_.problems.add(
            yaml::offset_in_text(*node, error.offset().value_or(0), reading_.source),
            error.without_place());
        return std::nullopt;
    }
}

}  // namespace compline::chart
