#include "grips_shown.hpp"

#include "attributes.hpp"
#include "shown_place.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/fret_diagram.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::report {

namespace {

using time::eighth_note;
using time::Ticks;

constexpr std::size_t diagram_lines = frets_shown + 2;

/// The display of voicings moves on so much ahead of the chord: as far as a push.
constexpr Ticks ahead = eighth_note;

using guitar::PlannedVoicing;

/// A voicing and the bar in which it begins to be played.
struct Due {
    const PlannedVoicing* voicing = nullptr;
    int bar = 1;

    [[nodiscard]] bool is_as(const Due& other) const {
        return voicing != nullptr && other.voicing != nullptr &&
               voicing->grip == other.voicing->grip &&
               voicing->change.to == other.voicing->change.to;
    }
};

/// The first voicing that begins in a passage after a position of the form.
Due first_after(const guitar::VoicingPlan& plan, chart::Passage passage, Ticks after) {
    for (const auto& voicing : plan.voicings) {
        const auto& change = voicing.change;
        if (change.in_form > after && change.bar <= passage.to) return {&voicing, change.bar};
    }
    return {};
}

/// The voicing that a time through a passage begins with.
Due first_of(const guitar::VoicingPlan& plan, const chart::Form& form, chart::Passage passage) {
    const Ticks start = form.bar(passage.from).start;
    if (const auto* at_once = plan.at(start)) return {at_once, passage.from};
    return first_after(plan, passage, start);
}

struct ShownGrips {
    Due now;
    Due next;
};

/// What is held at a position and what comes next, in this time through or in one to come.
ShownGrips grips_at(const ChartRows& rows, const Playing& playing, Ticks position) {
    const auto& way = playing.map.way();
    const auto& form = playing.map.form();
    const auto& plan = *playing.voicings;
    const auto place = shown_place(rows, playing, position + ahead);
    if (place.over && playing.decided.paused) {
        return {{}, first_of(plan, form, {place.bar, form.all().to})};
    }
    if (place.over) return {};
    const auto& here = way.stretch(place.time_through).passage;
    ShownGrips grips;
    if (place.before) {
        grips.next = first_of(plan, form, here);
        return grips;
    }
    const Ticks in_form = form.bar(place.bar).start + place.in_bar;
    grips.now = {plan.at(in_form), place.bar};
    grips.next = first_after(plan, here, in_form);
    const auto times = way.times_through();
    const int last = times.value_or(place.time_through + static_cast<int>(way.stretches.size()));
    for (int later = place.time_through + 1; later <= last; ++later) {
        if (grips.next.voicing != nullptr) break;
        const auto& there = way.stretch(later).passage;
        grips.next = first_of(plan, form, there);
        // A chord that goes on over the seam is no other grip.
        if (!grips.next.is_as(grips.now)) continue;
        grips.next = first_after(plan, there, grips.next.voicing->change.in_form);
    }
    return grips;
}

/// A text made as wide as a column of the display.
std::string padded(const std::string& text, int columns) {
    const auto cut = cut_to_columns(text, columns);
    return cut + std::string(static_cast<std::size_t>(columns - columns_of(cut)), ' ');
}

std::vector<std::string> diagram_of(const Due& due) {
    if (due.voicing == nullptr) return std::vector<std::string>(diagram_lines);
    return fret_diagram(due.voicing->grip, frets_shown);
}

std::string heading(const char* word, const Due& due) {
    return due.voicing == nullptr ? ""
                                  : fmt::format("{}  {}", word, due.voicing->change.to.symbol());
}

/// With its bar, where there is room for it.
std::string next_heading(const Due& next, int columns) {
    const auto name = heading("next", next);
    if (name.empty()) return "";
    const auto with_bar = fmt::format("{}  bar {}", name, next.bar);
    return columns_of(with_bar) <= columns ? with_bar : cut_to_columns(name, columns);
}

/// "now  F7  1x12xx    next  B♭7  x1013x", or as much of it as has room.
std::string in_one_line(const ShownGrips& grips, int columns) {
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
std::vector<std::string> one_grip(const ShownGrips& grips, int columns) {
    const bool now = grips.now.voicing != nullptr;
    std::vector<std::string> lines{now ? cut_to_columns(heading("now", grips.now), columns)
                                       : next_heading(grips.next, columns)};
    for (auto& line : diagram_of(now ? grips.now : grips.next)) lines.push_back(std::move(line));
    return lines;
}

std::vector<std::string> two_grips(const ShownGrips& grips, int wide, int columns) {
    std::vector<std::string> lines{padded(heading("now", grips.now), wide - 1) + " " +
                                   next_heading(grips.next, columns - wide)};
    const auto left = diagram_of(grips.now);
    const auto right = diagram_of(grips.next);
    for (std::size_t i = 0; i < diagram_lines; ++i) {
        lines.push_back(padded(left[i], wide) + right[i]);
    }
    return lines;
}

}  // namespace

std::vector<std::string> grips_shown(const ChartRows& rows, const Playing& playing, Ticks position,
                                     std::size_t room) {
    if (playing.voicings == nullptr || room == 0) return {};
    const auto grips = grips_at(rows, playing, position);
    const int columns = std::min(rows.columns, playing.window.columns);
    const int diagram = fret_diagram_columns(playing.voicings->fretboard.strings());
    const int wide = columns >= 60 ? 28 : std::max(diagram + 3, 20);
    std::vector<std::string> lines;
    if (room <= diagram_lines) {
        lines = {in_one_line(grips, columns)};
    } else if (columns < wide + diagram) {
        lines = one_grip(grips, columns);
    } else {
        lines = two_grips(grips, wide, columns);
    }
    lines[0] = with(bold, lines[0], playing);
    return lines;
}

}  // namespace compline::report
