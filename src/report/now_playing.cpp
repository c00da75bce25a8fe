#include "words.hpp"

#include <compline/band/drums.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/fret_diagram.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace compline::report {

namespace {

constexpr std::size_t diagram_lines = frets_shown + 2;

using roadmap::PlayedPlace;
using time::eighth_note;
using time::Ticks;

constexpr const char* keys = "space: start over   q: stop";

/// ECMA-48, "select graphic rendition": no colour among them.
constexpr const char* bold = "\x1B[1m";
constexpr const char* dim = "\x1B[2m";
constexpr const char* bold_reverse = "\x1B[1;7m";
constexpr const char* as_usual = "\x1B[0m";

std::string with(const char* attribute, const std::string& text, const Playing& playing) {
    if (!playing.attributes || text.empty()) return text;
    return attribute + text + as_usual;
}

/// The row, the bar being played in brackets.
std::string row_line(const ChartRow& row, const PlayedPlace& place, const Playing& playing) {
    std::string line = row.letter;
    bool closed = false;  // the bracket stands where the next bar line would
    for (const auto& bar : row.bars) {
        const bool now = bar.number == place.bar && !place.before && !place.over;
        if (now) {
            line += with(bold_reverse, "[" + bar.text + "]", playing);
        } else {
            line += (closed ? "" : "|") + bar.text;
        }
        closed = now;
    }
    return closed ? line : line + "|";
}

std::string beats_line(const ChartRow& row, const PlayedPlace& place, const Playing& playing) {
    const auto meter = playing.map.form().bar(place.bar).meter;
    const auto now = static_cast<std::size_t>(place.in_bar / meter.beat());
    std::string line;
    int column = 0;
    for (const auto& bar : row.bars) {
        if (bar.number != place.bar) continue;
        for (std::size_t beat = 0; beat < bar.beats.size(); ++beat) {
            line.append(static_cast<std::size_t>(bar.beats[beat] - column), ' ');
            column = bar.beats[beat] + 1;
            line += beat == now ? with(bold, std::to_string(beat + 1), playing) : "·";
        }
    }
    return line;
}

/// What a drummer says on a beat of the count-in: in the first of two bars only where he clicks.
std::string counted(int bars_to_go, int beat, time::Meter meter) {
    if (bars_to_go == 1) return std::to_string(beat + 1);
    const Ticks at = meter.beat() * beat - meter.bar() * bars_to_go;
    int clicks = 0;
    for (const auto& click : band::count_in(meter, bars_to_go)) {
        ++clicks;
        if (click.at == at) return std::to_string(clicks);
    }
    return "-";
}

/// The count so far: "count-in   1 - 2 -   1 2".
std::string count_line(const Playing& playing, Ticks position) {
    const auto meter = playing.map.bar(1).meter();
    const int beats = meter.beats();
    std::string line = "count-in";
    const Ticks first = -playing.map.count_in();
    for (int n = 0; first + meter.beat() * n <= position; ++n) {
        const auto word = counted(playing.map.count_in_bars() - n / beats, n % beats, meter);
        const bool last = first + meter.beat() * (n + 1) > position;
        line += (n % beats == 0 ? "   " : " ") + (last ? with(bold, word, playing) : word);
    }
    return line;
}

std::string next_line(const ChartRows& rows, const PlayedPlace& place, const Playing& playing) {
    if (place.over) return "";
    const auto& way = playing.map.way();
    const auto& here = way.stretch(place.time_through).passage;
    const std::size_t row = rows.row_of(place.bar);
    if (row < rows.row_of(here.to)) return rows.rows[row + 1].text();
    if (place.time_through == way.times_through()) return "";
    return rows.rows[rows.row_of(way.stretch(place.time_through + 1).passage.from)].text();
}

/// Whom the rule leaves out, with the blanks before it. Of a band that was asked not to play
/// nothing is said.
std::string silence_words(const PlayedPlace& place, const roadmap::PlayedBar& bar) {
    if (place.before || place.over || !bar.left_out.anybody()) return "";
    if (bar.is_silent()) return "   (silence)";
    return bar.on.drums && bar.left_out.drums ? "   (drums out)" : "";
}

std::string status_line(const ChartRows& rows, const PlayedPlace& place, const Playing& playing) {
    const auto here = playing.map.bar(place.number);
    const auto nth = ordinal(place.time_through);
    const auto bar = fmt::format("bar {} of {}", place.bar, playing.map.form().bars.size());
    const auto tempo = plain(here.tempo.count()) + " bpm";
    const auto times = playing.map.times_through();
    const auto of = times ? fmt::format(" of {}", *times) : "";
    std::string name = text::printable(playing.map.way().stretch(place.time_through).name);
    if (!name.empty()) name += "   ";
    const auto silence = silence_words(place, here);
    auto line = fmt::format("{}{}{}   {}   {}{}", name, nth, of.empty() ? " time through" : of, bar,
                            tempo, silence);
    if (columns_of(line) <= rows.columns) return line;
    return cut_to_columns(
        fmt::format("{}{}  {}  {}{}", nth, of.empty() ? " time" : of, bar, tempo, silence),
        rows.columns);
}

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
ShownGrips grips_at(const Playing& playing, Ticks position) {
    const auto& way = playing.map.way();
    const auto& form = playing.map.form();
    const auto& plan = *playing.voicings;
    const auto place = playing.map.place_at(position + ahead);
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

/// Two diagrams side by side, their headings above them; always as many lines.
std::vector<std::string> voicing_lines(const ChartRows& rows, const Playing& playing,
                                       Ticks position) {
    const auto grips = grips_at(playing, position);
    const int diagram = fret_diagram_columns(playing.voicings->fretboard.strings());
    const int wide = rows.columns >= 60 ? 28 : std::max(diagram + 3, 20);
    auto next = heading("next", grips.next);
    if (!next.empty()) next += fmt::format("  bar {}", grips.next.bar);
    std::vector<std::string> lines{padded(heading("now", grips.now), wide - 1) + " " +
                                   cut_to_columns(next, rows.columns - wide)};
    const auto left = diagram_of(grips.now);
    const auto right = diagram_of(grips.next);
    for (std::size_t i = 0; i < diagram_lines; ++i) {
        lines.push_back(padded(left[i], wide) + right[i]);
    }
    lines[0] = with(bold, lines[0], playing);
    lines.emplace_back();
    return lines;
}

}  // namespace

std::vector<std::string> now_playing(const ChartRows& rows, const Playing& playing,
                                     Ticks position) {
    const auto place = playing.map.place_at(position);
    const auto& row = rows.rows[rows.row_of(place.bar)];
    std::string below;
    if (place.before) {
        below = count_line(playing, position);
    } else if (!place.over) {
        below = beats_line(row, place, playing);
    }
    std::vector<std::string> lines{row_line(row, place, playing), below,
                                   next_line(rows, place, playing), ""};
    if (playing.voicings != nullptr) {
        for (auto& line : voicing_lines(rows, playing, position)) lines.push_back(std::move(line));
    }
    lines.push_back(status_line(rows, place, playing));
    lines.push_back(with(dim, keys, playing));
    return lines;
}

}  // namespace compline::report
