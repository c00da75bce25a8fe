#include "attributes.hpp"
#include "count_in.hpp"
#include "grips_shown.hpp"
#include "shown_place.hpp"
#include "status_words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>

namespace compline::report {

namespace {

using roadmap::PlayedPlace;
using time::Ticks;

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

/// What stands over a bar on paper: cue words and signs.
std::string words_over(const chart::Form& form, int bar) {
    auto words = text::printable(form.bar(bar).cue);
    const auto add = [&](std::optional<int> there, const char* sign) {
        if (there == bar) words += (words.empty() ? "" : ", ") + std::string(sign);
    };
    add(form.segno, "segno");
    add(form.to_coda, "to coda");
    add(form.fine, "fine");
    return words;
}

/// The beats of the bar being played; behind them, and at the other bars, what stands over each.
class BeatsLine {
  public:
    BeatsLine(const ChartRow& row, const PlayedPlace& place, const Playing& playing)
        : place_(place),
          playing_(playing),
          form_(playing.map.form()),
          columns_(playing.window.columns) {
        for (const auto& bar : row.bars) {
            const bool now = bar.number == place.bar;
            if (now) add_beats(bar);
            add_words(words_over(form_, bar.number), now ? column_ + 1 : after_words(bar.column));
        }
    }
    [[nodiscard]] const std::string& text() const { return line_; }

  private:
    void go_to(int column) {
        line_.append(static_cast<std::size_t>(std::max(0, column - column_)), ' ');
        column_ = std::max(column, column_);
    }
    [[nodiscard]] int after_words(int column) const {
        return line_.empty() ? column : std::max(column, column_ + 2);
    }
    void add_beats(const RowBar& bar) {
        const auto counted = form_.bar(place_.bar).meter.counted();
        const auto now = static_cast<std::size_t>(place_.in_bar / counted);
        for (std::size_t beat = 0; beat < bar.beats.size(); ++beat) {
            go_to(bar.beats[beat]);
            line_ += beat == now ? with(bold, std::to_string(beat + 1), playing_) : "·";
            ++column_;
        }
    }
    /// Words that are longer than their bar move those behind them.
    void add_words(const std::string& words, int column) {
        if (words.empty() || column >= columns_) return;
        go_to(column);
        const auto cut = cut_to_columns(words, columns_ - column_);
        line_ += cut;
        column_ += columns_of(cut);
    }

    const PlayedPlace& place_;
    const Playing& playing_;
    const chart::Form& form_;
    int columns_;
    std::string line_;
    int column_ = 0;
};

/// The count so far: "count-in   1 - 2 -   1 2".
std::string count_line(const Playing& playing, const PlayedPlace& place, Ticks position) {
    const auto count = count_in(playing.map, place, position);
    std::string line = "count-in";
    for (std::size_t n = 0; n < count.words.size(); ++n) {
        const auto& word = count.words[n];
        const bool last = n + 1 == count.words.size();
        line += n % static_cast<std::size_t>(count.beats) == 0 ? "   " : " ";
        line += last ? with(bold, word, playing) : word;
    }
    return line;
}

/// The line below the row being played.
std::string below(const ChartRow& row, const PlayedPlace& place, const Playing& playing,
                  Ticks position) {
    if (place.before) return count_line(playing, place, position);
    return place.over ? "" : BeatsLine(row, place, playing).text();
}

/// The row that is played after this one. Where it pauses before that, the one that follows in the
/// tune.
std::string next_line(const ChartRows& rows, const PlayedPlace& place, const Playing& playing) {
    const std::size_t row = rows.row_of(place.bar);
    const auto bars = playing.map.bars();
    int before = place.bar;
    for (auto number = place.number + 1; !bars || number <= *bars; ++number) {
        const int bar = playing.map.bar(number).in_form();
        if (bar == 0) continue;  // it waits, and stands in no row
        if (bar != before + 1 || rows.row_of(bar) != row) return rows.rows[rows.row_of(bar)].text();
        before = bar;
    }
    const bool follows = playing.decided.paused && row + 1 < rows.rows.size();
    return follows ? rows.rows[row + 1].text() : "";
}

}  // namespace

std::string_view name_of(View view) { return view == View::rows ? "rows" : "large"; }

std::vector<std::string> now_playing(const ChartRows& rows, const Playing& playing,
                                     Ticks position) {
    const auto place = shown_place(rows, playing, position);
    const auto& row = rows.rows[rows.row_of(place.bar)];
    // Of the lines those that follow here go first; blank ones stand where there is room left.
    const auto height = static_cast<std::size_t>(std::max(1, playing.window.lines));
    const std::size_t room = height - std::min<std::size_t>(height, 5);
    const auto grips = grips_shown(rows, playing, position, room);
    std::size_t blanks = room - grips.size();
    std::vector<std::string> lines{row_line(row, place, playing),
                                   below(row, place, playing, position)};
    if (height >= 5) lines.push_back(next_line(rows, place, playing));
    if (!grips.empty() && blanks >= 2) lines.emplace_back();
    lines.insert(lines.end(), grips.begin(), grips.end());
    if (blanks >= 1) lines.emplace_back();
    lines.push_back(status_line(playing, place));
    if (height >= 4) lines.push_back(with(dim, keys_line(playing), playing));
    if (lines.size() > height) lines.resize(height);
    return lines;
}

}  // namespace compline::report
