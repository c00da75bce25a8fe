#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/now_playing.hpp>

#include <fmt/format.h>

#include <cstddef>
#include <cstdint>

namespace compline::report {

namespace {

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

struct Place {
    int time_through = 1;  ///< from 1
    int bar = 1;           ///< of the form
    std::size_t beat = 0;  ///< of the bar, from 0
    bool counting_in = false;
    bool over = false;  ///< the last time through has been played
};

Ticks length_of(const ChartRows& rows) { return rows.meter.bar() * rows.passage.bars(); }

Place place_at(const ChartRows& rows, const Playing& playing, Ticks position) {
    if (position < Ticks(0)) return {1, rows.passage.from, 0, true, false};
    const std::int64_t times_played = position / length_of(rows);
    if (playing.times_through && times_played >= *playing.times_through) {
        return {*playing.times_through, rows.passage.to, 0, false, true};
    }
    const Ticks in_passage = position % length_of(rows);
    const auto bars = static_cast<int>(in_passage / rows.meter.bar());
    const Ticks in_bar = in_passage % rows.meter.bar();
    return {static_cast<int>(times_played) + 1, rows.passage.from + bars,
            static_cast<std::size_t>(in_bar / rows.meter.beat()), false, false};
}

/// The row, the bar being played in brackets.
std::string row_line(const ChartRow& row, const Place& place, const Playing& playing) {
    std::string line = row.letter;
    bool closed = false;  // the bracket stands where the next bar line would
    for (const auto& bar : row.bars) {
        const bool now = bar.number == place.bar && !place.counting_in && !place.over;
        if (now) {
            line += with(bold_reverse, "[" + bar.text + "]", playing);
        } else {
            line += (closed ? "" : "|") + bar.text;
        }
        closed = now;
    }
    return closed ? line : line + "|";
}

std::string beats_line(const ChartRow& row, const Place& place, const Playing& playing) {
    std::string line;
    int column = 0;
    for (const auto& bar : row.bars) {
        if (bar.number != place.bar) continue;
        for (std::size_t beat = 0; beat < bar.beats.size(); ++beat) {
            line.append(static_cast<std::size_t>(bar.beats[beat] - column), ' ');
            column = bar.beats[beat] + 1;
            line += beat == place.beat ? with(bold, std::to_string(beat + 1), playing) : "·";
        }
    }
    return line;
}

/// What a drummer says on a beat of the count-in: every second beat of the first of two bars.
std::string counted(int bars_to_go, int beat, int beats) {
    if (bars_to_go == 1) return std::to_string(beat + 1);
    const bool spoken = beat % 2 == 0 && beat + 1 < beats;
    return spoken ? std::to_string(beat / 2 + 1) : "-";
}

/// The count so far: "count-in   1 - 2 -   1 2".
std::string count_line(const ChartRows& rows, const Playing& playing, Ticks position) {
    const int beats = rows.meter.beats();
    std::string line = "count-in";
    const Ticks first = rows.meter.bar() * -playing.count_in_bars;
    for (int n = 0; first + rows.meter.beat() * n <= position; ++n) {
        const auto word = counted(playing.count_in_bars - n / beats, n % beats, beats);
        const bool last = first + rows.meter.beat() * (n + 1) > position;
        line += (n % beats == 0 ? "   " : " ") + (last ? with(bold, word, playing) : word);
    }
    return line;
}

std::string next_line(const ChartRows& rows, const Place& place, const Playing& playing) {
    if (place.over) return "";
    const std::size_t next = rows.row_of(place.bar) + 1;
    if (next < rows.rows.size()) return rows.rows[next].text();
    const bool last_time = playing.times_through && place.time_through == *playing.times_through;
    return last_time ? "" : rows.rows.front().text();
}

std::string status_line(const ChartRows& rows, const Place& place, const Playing& playing) {
    const auto nth = ordinal(place.time_through);
    const auto bar = fmt::format("bar {} of {}", place.bar, rows.bars_in_form);
    const auto tempo = plain(playing.tempo.count()) + " bpm";
    const auto of = playing.times_through ? fmt::format(" of {}", *playing.times_through) : "";
    auto line = fmt::format("{}{}   {}   {}", nth, of.empty() ? " time through" : of, bar, tempo);
    if (columns_of(line) <= rows.columns) return line;
    return cut_to_columns(fmt::format("{}{}  {}  {}", nth, of.empty() ? " time" : of, bar, tempo),
                          rows.columns);
}

}  // namespace

std::vector<std::string> now_playing(const ChartRows& rows, const Playing& playing,
                                     Ticks position) {
    const Place place = place_at(rows, playing, position);
    const auto& row = rows.rows[rows.row_of(place.bar)];
    std::string below;
    if (place.counting_in) {
        below = count_line(rows, playing, position);
    } else if (!place.over) {
        below = beats_line(row, place, playing);
    }
    return {row_line(row, place, playing),     below,
            next_line(rows, place, playing),   "",
            status_line(rows, place, playing), with(dim, keys, playing)};
}

}  // namespace compline::report
