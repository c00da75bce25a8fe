#include "words.hpp"

#include <compline/band/drums.hpp>
#include <compline/chart/printable.hpp>
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

Place place_at(const ChartRows& rows, const Playing& playing, Ticks position) {
    const auto place = playing.route.place(position, rows.meter);
    return {place.time + 1, place.bar, static_cast<std::size_t>(place.in_bar / rows.meter.beat()),
            place.before, place.over};
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
std::string count_line(const ChartRows& rows, const Playing& playing, Ticks position) {
    const int beats = rows.meter.beats();
    std::string line = "count-in";
    const Ticks first = rows.meter.bar() * -playing.count_in_bars;
    for (int n = 0; first + rows.meter.beat() * n <= position; ++n) {
        const auto word = counted(playing.count_in_bars - n / beats, n % beats, rows.meter);
        const bool last = first + rows.meter.beat() * (n + 1) > position;
        line += (n % beats == 0 ? "   " : " ") + (last ? with(bold, word, playing) : word);
    }
    return line;
}

std::string next_line(const ChartRows& rows, const Place& place, const Playing& playing) {
    if (place.over) return "";
    const auto& here = playing.route.stretch(place.time_through - 1).passage;
    const std::size_t row = rows.row_of(place.bar);
    if (row < rows.row_of(here.to)) return rows.rows[row + 1].text();
    const auto times = playing.route.times_through();
    if (times && place.time_through == *times) return "";
    return rows.rows[rows.row_of(playing.route.stretch(place.time_through).passage.from)].text();
}

std::string status_line(const ChartRows& rows, const Place& place, const Playing& playing) {
    const auto nth = ordinal(place.time_through);
    const auto bar = fmt::format("bar {} of {}", place.bar, rows.bars_in_form);
    const auto tempo = plain(playing.tempo.count()) + " bpm";
    const auto times = playing.route.times_through();
    const auto of = times ? fmt::format(" of {}", *times) : "";
    std::string name = chart::printable(playing.route.stretch(place.time_through - 1).name);
    if (!name.empty()) name += "   ";
    const std::string silence = playing.silent && !place.over ? "   (silence)" : "";
    auto line = fmt::format("{}{}{}   {}   {}{}", name, nth, of.empty() ? " time through" : of, bar,
                            tempo, silence);
    if (columns_of(line) <= rows.columns) return line;
    return cut_to_columns(
        fmt::format("{}{}  {}  {}{}", nth, of.empty() ? " time" : of, bar, tempo, silence),
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
