#include "section_reader.hpp"

#include "bar_reader.hpp"
#include "chart_line.hpp"
#include "values.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/map_reader.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

bool is_settled(const yaml::TreeNode& node) { return node.kind == Kind::refused; }

std::optional<std::string> read_name(const yaml::TreeNode& key, const yaml::FileReading& reading) {
    if (is_settled(key)) return std::nullopt;
    if (key.kind != Kind::text) {
        reading.problems.add(key.offset, fmt::format("{} cannot name a section: write a name such "
                                                     "as A or Intro 2",
                                                     yaml::kind_name(key)));
        return std::nullopt;
    }
    try {
        return read_section_name(key.text);
    } catch (const text::BadInput& error) {
        reading.problems.add(key.offset, error.what());
        return std::nullopt;
    }
}

void add_lines(const yaml::TreeNode& item, std::size_t place, const yaml::FileReading& reading,
               std::vector<yaml::TextLine>& lines) {
    if (is_settled(item)) return;
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

/// The lines of bars: a text, or a list of texts. `place` is where an empty list item is reported.
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

std::string no_bars(const std::string& name) {
    return fmt::format(
        "section {} has no bars: write its chords between bar lines, such as "
        "F6 | D7 | Gm7 | C7",
        text::quoted(name));
}

/// Reads a section's value: bars, or a map with keys of its own and the bars among them.
class SectionReader {
  public:
    SectionReader(BarReader& bars, const yaml::FileReading& reading)
        : bars_(bars), reading_(reading) {}

    [[nodiscard]] Section read(const yaml::TreeNode& key, const yaml::TreeNode& value) {
        Section section;
        const yaml::TreeNode* bars = &value;
        if (value.kind == Kind::map) {
            const yaml::MapReader map(value, "section", reading_);
            map.check_keys({"feel", "drums", "bass", "phrasing", "bars"});
            section.manner = read_manner(map);
            bars = map.require("bars", "bars: F6 | D7 | Gm7 | C7");
        }
        if (bars != nullptr) section.bars = read_bars(key, *bars);
        return section;
    }

  private:
    [[nodiscard]] std::vector<WrittenBar> read_bars(const yaml::TreeNode& key,
                                                    const yaml::TreeNode& node) {
        const auto before = reading_.problems.count();
        auto bars = bars_.read_section(lines_of_bars(node, key.offset, reading_));
        // A section without bars may have been complained about already, or have some further on.
        const bool excused = !reading_.complete || key.kind != Kind::text || is_settled(node) ||
                             reading_.problems.count() != before;
        if (bars.empty() && !excused) reading_.problems.add(key.offset, no_bars(key.text));
        return bars;
    }

    BarReader& bars_;
    const yaml::FileReading& reading_;
};

std::vector<std::string> names_of(const std::vector<Section>& sections) {
    std::vector<std::string> names;
    names.reserve(sections.size());
    for (const auto& section : sections) names.push_back(section.name);
    return names;
}

bool has(const Sections& sections, const std::string& name) {
    return std::any_of(sections.list.begin(), sections.list.end(),
                       [&](const Section& s) { return s.name == name; });
}

using BarCounts = std::map<std::string, std::size_t, std::less<>>;

BarCounts bar_counts(const Sections& sections) {
    BarCounts counts;
    for (const auto& section : sections.list) counts.emplace(section.name, section.bars.size());
    return counts;
}

void check_length(const std::vector<std::string>& form, const BarCounts& counts, std::size_t place,
                  const yaml::FileReading& reading) {
    std::size_t bars = 0;  // at most 20,000 names of at most 2,000 bars each
    for (const auto& name : form) bars += counts.at(name);
    if (bars <= std::size_t{most_bars}) return;
    reading.problems.add(
        place, fmt::format("the form is {} bars long: at most {} are played", bars, most_bars));
}

std::string form_advice(const yaml::TreeNode& node) {
    std::vector<std::string> letters;
    for (const char c : node.text) {
        if (c >= 'A' && c <= 'Z') letters.emplace_back(1, c);
    }
    const bool plausible = node.text.size() <= 16 && letters.size() > 1;
    if (!plausible) letters = {"A", "A", "B", "A"};
    std::string text;
    for (const auto& letter : letters) text += (text.empty() ? "" : ", ") + letter;
    return fmt::format(
        "{} where the form was expected: write it as a list of section names, such "
        "as [{}]",
        yaml::kind_name(node), text);
}

}  // namespace

Sections read_sections(const yaml::TreeNode& map, std::optional<time::Meter> meter,
                       const yaml::FileReading& reading) {
    Sections sections{{}, reading.complete};
    if (map.kind != Kind::map) {
        sections.all_known = false;
        if (!is_settled(map)) {
            reading.problems.add(map.offset,
                                 fmt::format("{} where the sections were expected: write each as a "
                                             "name and its bars, such as `A: F6 | D7 | Gm7 | C7`",
                                             yaml::kind_name(map)));
        }
        return sections;
    }
    if (map.entries.empty() && reading.complete) {
        reading.problems.add(map.offset,
                             "there is no section: write one such as "
                             "`A: F6 | D7 | Gm7 | C7`");
    }
    yaml::refuse_duplicate_keys(map, reading);
    BarReader bars(meter, reading.problems);
    for (const auto& [key, value] : map.entries) {
        const auto name = read_name(key, reading);
        auto section = SectionReader(bars, reading).read(key, value);
        sections.all_known = sections.all_known && name;
        if (!name || has(sections, *name)) continue;
        section.name = *name;
        sections.list.push_back(std::move(section));
    }
    return sections;
}

std::vector<std::string> read_form(const yaml::TreeNode& list, const Sections& sections,
                                   const yaml::FileReading& reading) {
    if (is_settled(list)) return {};
    if (list.kind != Kind::list) {
        reading.problems.add(list.offset, form_advice(list));
        return {};
    }
    const auto counts = bar_counts(sections);
    std::vector<std::string> form;
    for (const auto& item : list.items) {
        if (is_settled(item)) continue;
        yaml::refuse_comment_behind(item, reading);
        if (item.kind == Kind::text && counts.count(item.text) > 0) {
            form.push_back(item.text);
        } else if (item.kind != Kind::text) {
            reading.problems.add(item.kind == Kind::nothing ? list.offset : item.offset,
                                 fmt::format("{} in the form where the name of a section was "
                                             "expected",
                                             yaml::kind_name(item)));
        } else if (sections.all_known) {
            reading.problems.add(
                item.offset,
                fmt::format("there is no section {}: the sections are {}", text::quoted(item.text),
                            text::listed(names_of(sections.list))));
        }
    }
    if (list.items.empty() && reading.complete) {
        reading.problems.add(list.offset,
                             "the form is empty: name its sections in playing order, or delete the "
                             "line to play each once");
    }
    check_length(form, counts, list.offset, reading);
    return form;
}

std::vector<std::string> form_in_file_order(const Sections& sections) {
    return names_of(sections.list);
}

}  // namespace compline::chart
