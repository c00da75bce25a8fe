#include "bar_text.hpp"

#include <compline/report/chart_rows.hpp>
#include <compline/report/columns.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <utility>

namespace compline::report {

namespace {

constexpr int longest_letter = 8;

using chart::Form;
using chart::Passage;

/// A row before it has its widths.
struct Draft {
    std::string letter;
    std::vector<int> numbers;
    std::vector<BeatTexts> bars;
};
using Drafts = std::vector<Draft>;

/// Bar lines and letter aside, what a row has for its bars.
struct Room {
    int columns;   ///< of all bars, with the bar line behind each
    int per_bar;   ///< an equal share, without its bar line
    int bar_even;  ///< the same less what would make beats uneven
};

bool begins_section(const Form& form, int bar) {
    if (bar == 1) return true;
    const auto& here = form.bar(bar);
    const auto& before = form.bar(bar - 1);
    return here.section != before.section || here.occurrence != before.occurrence ||
           here.ending != before.ending;
}

/// "A", or of an ending "A 1." as it stands under its bracket.
std::string letter_of(const chart::FormBar& bar) {
    const auto ending = bar.ending ? fmt::format(" {}.", *bar.ending) : "";
    const int room = longest_letter - static_cast<int>(ending.size());
    return cut_to_columns(text::printable(bar.section), room) + ending;
}

/// Each text as wide as the other one at its beat, where both have any.
BeatTexts with_room_for(BeatTexts texts, const BeatTexts& others) {
    for (std::size_t beat = 0; beat < std::min(texts.size(), others.size()); ++beat) {
        if (!texts[beat].empty()) texts[beat] = padded(texts[beat], columns_of(others[beat]));
    }
    return texts;
}

Drafts drafts(const Form& form, Passage passage, int bars_per_row, const Form* other) {
    Drafts rows;
    for (int bar = passage.from; bar <= passage.to; ++bar) {
        const bool new_row = rows.empty() || begins_section(form, bar) ||
                             static_cast<int>(rows.back().bars.size()) == bars_per_row;
        if (new_row) rows.push_back({letter_of(form.bar(bar)), {}, {}});
        rows.back().numbers.push_back(bar);
        auto texts = beat_texts(form, bar, new_row);
        if (other != nullptr) {
            texts = with_room_for(std::move(texts), beat_texts(*other, bar, new_row));
        }
        rows.back().bars.push_back(std::move(texts));
    }
    return rows;
}

int letter_columns(const Drafts& rows) {
    int widest = 0;
    for (const auto& row : rows) widest = std::max(widest, columns_of(row.letter));
    return widest + 1;
}

std::vector<int> least_widths(const Draft& row) {
    std::vector<int> widths;
    for (const auto& bar : row.bars) widths.push_back(least_width(bar));
    return widths;
}

int sum(const std::vector<int>& widths) {
    int total = 0;
    for (const int width : widths) total += width;
    return total;
}

Room room_of(const Drafts& rows, time::Meter meter, int columns, int bars_per_row) {
    const int room = columns - letter_columns(rows) - 1;
    const int per_bar = room / bars_per_row - 1;
    const int beats = static_cast<int>(meter.bar() / meter.counted());
    return {room, per_bar, 1 + (per_bar - 1) / beats * beats};
}

bool fits(const Drafts& rows, const Room& room) {
    return std::all_of(rows.begin(), rows.end(), [&](const Draft& row) {
        return sum(least_widths(row)) + static_cast<int>(row.bars.size()) <= room.columns;
    });
}

/// The width that every bar gets where it can: even beats, unless a bar needs a little more.
int common_width(const Drafts& rows, const Room& room) {
    int widest = room.bar_even;
    for (const auto& row : rows) {
        for (const auto& bar : row.bars) {
            if (const int least = least_width(bar); least <= room.per_bar) {
                widest = std::max(widest, least);
            }
        }
    }
    return widest;
}

RowBar lay_out(const BeatTexts& texts, int number, int column, int width) {
    RowBar bar{number, "", column, width, beat_columns(texts, width)};
    for (std::size_t beat = 0; beat < texts.size(); ++beat) {
        if (!texts[beat].empty()) bar.text = padded(bar.text, bar.beats[beat]) + texts[beat];
    }
    bar.text = padded(bar.text, width);
    for (int& beat : bar.beats) beat += column;
    return bar;
}

ChartRow lay_out(const Draft& draft, int letters, int bar_width, const Room& room) {
    auto widths = least_widths(draft);
    widen_evenly(widths.begin(), widths.end(), bar_width * static_cast<int>(widths.size()));
    for (int& width : widths) width = std::min(width, room.columns - 1);
    ChartRow row{padded(draft.letter, letters), {}};
    int column = letters + 1;
    for (std::size_t i = 0; i < widths.size(); ++i) {
        row.bars.push_back(lay_out(draft.bars[i], draft.numbers[i], column, widths[i]));
        column += widths[i] + 1;
    }
    return row;
}

}  // namespace

std::string ChartRow::text() const {
    std::string line = letter + "|";
    for (const auto& bar : bars) line += bar.text + "|";
    return line;
}

std::string ChartRow::text_alone() const {
    std::string line(static_cast<std::size_t>(bars.front().column), ' ');
    for (const auto& bar : bars) line += bar.text + " ";
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

std::size_t ChartRows::row_of(int bar) const {
    const auto found = std::find_if(rows.begin(), rows.end(), [bar](const ChartRow& row) {
        return bar <= row.bars.back().number;
    });
    assert(bar >= passage.from && found != rows.end());
    return static_cast<std::size_t>(found - rows.begin());
}

ChartRows chart_rows(const Form& form, Passage passage, int columns, const Form* room_for) {
    ChartRows result{passage, 0, 0, {}};
    result.columns = std::clamp(columns, narrowest_rows, widest_rows);
    for (const int bars_per_row : {4, 2, 1}) {
        auto rows = drafts(form, passage, bars_per_row, room_for);
        const auto room = room_of(rows, form.chart.meter, result.columns, bars_per_row);
        if (bars_per_row == 1) {
            // Here the last chord may touch the bar line: better than to lose a part of it.
            for (auto& row : rows) shorten(row.bars.front(), room.per_bar + 1);
        } else if (!fits(rows, room)) {
            continue;
        }
        result.bars_per_row = bars_per_row;
        const int bar_width = common_width(rows, room);
        for (const auto& row : rows) {
            result.rows.push_back(lay_out(row, letter_columns(rows), bar_width, room));
        }
        break;
    }
    return result;
}

}  // namespace compline::report
