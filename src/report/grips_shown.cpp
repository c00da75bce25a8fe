#include "grips_shown.hpp"

#include "attributes.hpp"
#include "due_grips.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/fret_diagram.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::report {

namespace {

using time::Ticks;

constexpr std::size_t diagram_lines = frets_shown + 2;

/// A text made as wide as a column of the display.
std::string as_wide(const std::string& text, int columns) {
    return padded(cut_to_columns(text, columns), columns);
}

std::vector<std::string> diagram_of(const DueGrip& due, Hand hand) {
    if (due.voicing == nullptr) return std::vector<std::string>(diagram_lines);
    return fret_diagram(due.voicing->grip, frets_shown, hand);
}

std::string heading(const char* word, const DueGrip& due) {
    return due.voicing == nullptr ? ""
                                  : fmt::format("{}  {}", word, due.voicing->change.to.symbol());
}

/// With its bar, where there is room for it.
std::string next_heading(const DueGrip& next, int columns) {
    const auto name = heading("next", next);
    if (name.empty()) return "";
    const auto with_bar = fmt::format("{}  bar {}", name, next.bar);
    return columns_of(with_bar) <= columns ? with_bar : cut_to_columns(name, columns);
}

/// "now  F7  1x12xx    next  B♭7  x1013x", or as much of it as has room.
std::string in_one_line(const DueGrips& grips, int columns) {
    std::string line;
    for (const auto& [word, due] : {std::pair("now", grips.now), std::pair("next", grips.next)}) {
        if (due.voicing == nullptr) continue;
        const auto grip = heading(word, due) + "  " + due.voicing->grip.shape.text();
        auto longer = fmt::format("{}{}{}", line, line.empty() ? "" : "    ", grip);
        if (columns_of(longer) <= columns) line = std::move(longer);
    }
    return line;
}

/// One diagram where the window is too narrow for two.
std::vector<std::string> one_grip(const DueGrips& grips, int columns, Hand hand) {
    const bool now = grips.now.voicing != nullptr;
    std::vector<std::string> lines{now ? cut_to_columns(heading("now", grips.now), columns)
                                       : next_heading(grips.next, columns)};
    for (auto& line : diagram_of(now ? grips.now : grips.next, hand))
        lines.push_back(std::move(line));
    return lines;
}

std::vector<std::string> two_grips(const DueGrips& grips, int wide, int columns, Hand hand) {
    std::vector<std::string> lines{as_wide(heading("now", grips.now), wide - 1) + " " +
                                   next_heading(grips.next, columns - wide)};
    const auto left = diagram_of(grips.now, hand);
    const auto right = diagram_of(grips.next, hand);
    for (std::size_t i = 0; i < diagram_lines; ++i) {
        lines.push_back(as_wide(left[i], wide) + right[i]);
    }
    return lines;
}

}  // namespace

std::vector<std::string> grips_shown(const ChartRows& rows, const Playing& playing, Ticks position,
                                     std::size_t room) {
    if (playing.voicings == nullptr || room == 0) return {};
    const auto grips = due_grips(rows, playing, position);
    const int columns = std::min(rows.columns, playing.window.columns);
    const int diagram = fret_diagram_columns(playing.voicings->fretboard.strings());
    const int wide = columns >= 60 ? 28 : std::max(diagram + 3, 20);
    std::vector<std::string> lines;
    if (room <= diagram_lines) {
        lines = {in_one_line(grips, columns)};
    } else if (columns < wide + diagram) {
        lines = one_grip(grips, columns, playing.hand);
    } else {
        lines = two_grips(grips, wide, columns, playing.hand);
    }
    lines[0] = with(bold, lines[0], playing);
    return lines;
}

}  // namespace compline::report
