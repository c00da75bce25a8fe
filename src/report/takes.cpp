#include "json_values.hpp"
#include "words.hpp"

#include <compline/practice/time_alone.hpp>
#include <compline/practice/together.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/report.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/report/takes.hpp>
#include <compline/report/tempi.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace compline::report {

namespace {

constexpr std::size_t cells_a_line = 6;
using TakeCells = std::array<std::string, cells_a_line>;

constexpr int widest_file = 22;
const TakeCells head_of_lines = {"take", "made", "tempo", "in time", "tones", "weakest"};

/// Under these heads, of a take: "96-132", "26 of 32", "29 right", "9-12".
TakeCells cells_of(const practice::Report& take) {
    const auto& totals = take.assessment.totals;
    const auto [landed, of] = in_time(take.assessment);
    const auto& weakest = take.assessment.weakest;
    auto tempo = tempo_range(take.map);
    if (const auto unit = tempo.find(" bpm"); unit != std::string::npos) tempo.erase(unit);
    if (const auto to = tempo.find(" to "); to != std::string::npos) tempo.replace(to, 4, "-");
    return {cut_to_columns(text::printable(take.take), widest_file),
            spoken_date(take.made),
            tempo,
            fmt::format("{} of {}", landed, of),
            practice::judges_tones(take) ? fmt::format("{} right", totals.right_tones) : "-",
            weakest ? fmt::format("{}-{}", weakest->from_bar, weakest->to_bar) : ""};
}

/// In columns with their heads, one that is empty in every line left out.
std::string lines_of(std::vector<TakeCells> lines) {
    std::array<int, cells_a_line> widths{};
    for (const auto& cells : lines) {
        for (std::size_t i = 0; i < cells_a_line; ++i) {
            widths[i] = std::max(widths[i], columns_of(cells[i]));
        }
    }
    lines.insert(lines.begin(), head_of_lines);
    for (std::size_t i = 0; i < cells_a_line; ++i) {
        if (widths[i] > 0) widths[i] = std::max(widths[i], columns_of(head_of_lines[i]));
    }
    std::string text;
    for (const auto& cells : lines) {
        std::string line;
        for (std::size_t i = 0; i < cells_a_line; ++i) {
            if (widths[i] == 0) continue;
            const auto blanks = static_cast<std::size_t>(widths[i] + 2 - columns_of(cells[i]));
            line += cells[i] + std::string(blanks, ' ');
        }
        text += line.erase(line.find_last_not_of(' ') + 1) + "\n";
    }
    return text;
}

/// Where tones were heard in some alone, all are judged by time.
std::string all_together(std::span<const practice::Report> takes) {
    const auto with_tones = std::count_if(takes.begin(), takes.end(), practice::judges_tones);
    const bool mixed = with_tones > 0 && with_tones < std::ssize(takes);
    return mixed ? "All together, as if all had been heard by sound" : "All together";
}

/// A report's JSON, further in. Within a text a line break would be written \\n.
std::string indented(std::string json, std::size_t blanks) {
    while (!json.empty() && json.back() == '\n') json.pop_back();
    const std::string line_break = "\n" + std::string(blanks, ' ');
    std::string text;
    for (const char c : json) {
        if (c == '\n') {
            text += line_break;
        } else {
            text += c;
        }
    }
    return text;
}

}  // namespace

std::string takes_in_lines(std::span<const practice::Report> takes) {
    std::vector<TakeCells> lines;
    for (const auto& take : takes) lines.push_back(cells_of(take));
    return lines_of(std::move(lines));
}

std::string to_text(std::span<const practice::Report> takes, Listing listing) {
    const auto lines = takes_in_lines(takes) + "\n";
    if (takes.size() == 1) return lines + to_text(takes.front(), listing);
    if (const auto all = practice::together(takes))
        return lines + all_together(takes) + "\n\n" + to_text(*all, listing);
    return lines +
           "They were not played to one chart in one key: no report is made of all together.\n";
}

std::string to_json(std::span<const practice::Report> takes) {
    std::string list;
    for (const auto& take : takes) {
        list += (list.empty() ? "\n    " : ",\n    ") + indented(to_json(take), 4);
    }
    const auto all = practice::together(takes);
    return fmt::format(
        "{{\n  \"schema\": \"compline.reports/1\",\n  \"takes\": [{}\n  ],\n"
        "  \"together\": {}\n}}\n",
        list, all ? indented(to_json(*all), 2) : "null");
}

}  // namespace compline::report
