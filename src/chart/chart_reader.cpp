#include "chart_reader.hpp"

#include "bar_reader.hpp"
#include "cue_reader.hpp"
#include "form_reader.hpp"
#include "lines_of_bars.hpp"
#include "pin_reader.hpp"
#include "shares.hpp"
#include "values.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/yaml/map_reader.hpp>
#include <compline/yaml/text_lines.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

const std::vector<std::string>& known_keys() {
    static const std::vector<std::string> keys = {
        "title", "key",      "meter",    "tempo",   "feel",    "drums", "bass",
        "swing", "phrasing", "rhythm",   "lead-in", "form",    "segno", "to coda",
        "fine",  "road map", "voicings", "cues",    "sections"};
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

constexpr std::string_view lead_in_example = "lead-in: {beats: 2, chords: C7}";

/// "2" or "1.5", in halves.
int read_half_beats(std::string_view text) {
    const auto number = text::read_decimal(text);
    const double halves = number.value_or(0) * 2;
    if (halves < 1 || halves > 24 || halves != std::floor(halves)) {
        throw text::BadInput(
            fmt::format("{} beats cannot lead in: write a number such as 2, or "
                        "1.5 where it begins on an off-beat",
                        text::quoted(text)));
    }
    return static_cast<int>(halves);
}

/// Without the line end of a block scalar.
std::string read_text(std::string_view text) {
    return std::string(text.substr(0, text.find_last_not_of(" \n\r") + 1));
}

/// What YAML refused of a section is not there, and was said before.
bool has_all_bars(const std::vector<Section>& sections) {
    return std::none_of(sections.begin(), sections.end(),
                        [](const Section& section) { return section.bars.empty(); });
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
    const bool has_a_form = reading_.complete && reading_.problems.count() == before &&
                            !chart_.form.empty() && has_all_bars(chart_.sections);
    read_lead_in(map);
    read_signs(map, has_a_form);
    read_cues(map, has_a_form);
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
    if (!meter_is_known_) return;
    chart_.rhythm = map.value_of(
        map.find("rhythm"), [&](std::string_view text) { return read_rhythm(text, chart_.meter); });
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
    has_coda_ = map.find("to coda") != nullptr;
    const auto* const form = map.find("form");
    chart_.form = form != nullptr ? read_form(*form, sections, has_coda_, reading_)
                                  : form_in_file_order(sections, has_coda_);
    check_coda(map, sections);
    chart_.sections = std::move(sections.list);
}

void ChartReader::check_coda(const yaml::MapReader& map, const Sections& sections) const {
    const auto& all = sections.list;
    const bool there =
        std::any_of(all.begin(), all.end(), [](const Section& s) { return s.name == coda_name; });
    if (!has_coda_ || there || !sections.all_known) return;
    reading_.problems.add(map.find("to coda")->offset,
                          "there is no section Coda to go to: write one, or delete this line");
}

/// Its beats are counted as the meter is written; half a one where it begins on an off-beat.
void ChartReader::read_lead_in(const yaml::MapReader& map) {
    const auto* const node = map.find("lead-in");
    if (node == nullptr || node->kind == Kind::refused) return;
    if (node->kind != Kind::map) {
        reading_.problems.add(node->offset, fmt::format("{} where a lead-in was expected: write {}",
                                                        yaml::kind_name(*node), lead_in_example));
        return;
    }
    const yaml::MapReader lead_in(*node, "lead-in", reading_);
    lead_in.check_keys({"beats", "chords"});
    const auto halves = lead_in.value_of(lead_in.require("beats", "beats: 2"), read_half_beats);
    if (!halves || !meter_is_known_) return;
    const auto length = time::Ticks(chart_.meter.counted().count() / 2) * *halves;
    if (length > chart_.meter.bar()) {
        reading_.problems.add(lead_in.find("beats")->offset,
                              fmt::format("a lead-in of more than a bar of {}: write a section for "
                                          "it, and play it once in the road map",
                                          meter_name(chart_.meter)));
        return;
    }
    chart_.lead_in = LeadIn{length, {{{}, length, std::nullopt}}};
    const auto* const chords = lead_in.find("chords");
    if (chords == nullptr) return;
    const bool whole = *halves % 2 == 0;
    const time::Meter meter(
        whole ? chart_.meter.counted() : time::eighth_note,
        {static_cast<int>(length / (whole ? chart_.meter.counted() : time::eighth_note))});
    BarReader reader(reading_.problems);
    const auto before = reading_.problems.count();
    const auto bars = reader.read_section(lines_of_bars(*chords, chords->offset, reading_), meter);
    if (reading_.problems.count() != before) return;
    if (bars.size() != 1) {
        reading_.problems.add(chords->offset,
                              "a lead-in is one bar, or less: write its chords "
                              "without bar lines");
        return;
    }
    chart_.lead_in->slots = bars.front().slots;
}

void ChartReader::read_signs(const yaml::MapReader& map, bool has_a_form) {
    if (!has_a_form) return;
    read_sign(map, "to coda", chart_.signs.to_coda);  // so that there is a coda for the others
    read_sign(map, "segno", chart_.signs.segno);
    read_sign(map, "fine", chart_.signs.fine);
}

/// A sign that cannot be found is none, so that the rest can be read.
void ChartReader::read_sign(const yaml::MapReader& map, const char* key, std::string& sign) {
    const auto* const node = map.find(key);
    const auto bars = map.value_of(node, read_text);
    if (!bars) return;
    sign = *bars;
    try {
        const auto form = unroll(chart_);
        const bool in_coda =
            form.coda_from && (form.segno >= form.coda_from || form.to_coda >= form.coda_from ||
                               form.fine >= form.coda_from);
        if (!in_coda) return;
        reading_.problems.add(node->offset, fmt::format("the {} stands in the coda: write bars of "
                                                        "the form before it",
                                                        key));
    } catch (const text::BadInput& error) {
        reading_.problems.add(node->offset, error.what());
    }
    sign.clear();
}

void ChartReader::read_cues(const yaml::MapReader& map, bool has_a_form) {
    const auto* const node = map.find("cues");
    if (node == nullptr) return;
    const auto form = has_a_form ? std::optional(unroll(chart_)) : std::nullopt;
    chart_.cues = chart::read_cues(*node, form ? &*form : nullptr, reading_);
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
