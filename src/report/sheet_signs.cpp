#include "sheet_signs.hpp"

#include "text_width.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::report {

namespace {

using Kind = OverRow::Kind;

constexpr double side_by_side = 1.5;  ///< two things side by side
constexpr double sign_width = 4;      ///< segno, coda
constexpr double bracket_inset = 0.4;

double width_of(const std::string& words) { return width_in_ems(words) * sign_size; }

/// Finds a line for one thing after another, the lowest first.
class Stacker {
  public:
    Stacker(SheetRow& row, const SheetSize& paper) : row_(row), paper_(paper) {}

    void put(OverRow sign, double width) {
        const double room = paper_.right() - paper_.left();
        const double from = std::min(sign.x, std::max(paper_.left(), paper_.right() - width));
        const double left = sign.at_end ? std::max(paper_.left(), sign.x - width) : from;
        if (!sign.at_end) sign.x = from;
        if (width > room) sign.text = fitting(sign.text, room / sign_size);
        while (!is_free(sign.line, left, left + width)) ++sign.line;
        taken_.push_back({sign.line, left, left + width});
        row_.lines = std::max(row_.lines, sign.line + 1);
        row_.over.push_back(std::move(sign));
    }

    /// Room that something else has in the lowest line.
    void take(double from, double to) {
        taken_.push_back({0, from, to});
        row_.lines = std::max(row_.lines, 1);
    }

    [[nodiscard]] bool is_free(int line, double from, double to) const {
        return std::none_of(taken_.begin(), taken_.end(), [&](const Taken& there) {
            return there.line == line && from < there.to + side_by_side &&
                   there.from < to + side_by_side;
        });
    }

  private:
    struct Taken {
        int line;
        double from;
        double to;
    };
    SheetRow& row_;
    const SheetSize& paper_;
    std::vector<Taken> taken_;
};

double width_of_number(const std::string& ending) { return width_of(ending) + 1; }

/// The bracket goes as far as the ending does in this row.
double end_of_ending(const SheetRow& row, std::size_t first) {
    auto last = first;
    while (last + 1 < row.bars.size() && row.bars[last + 1].bar->written.in_ending &&
           row.bars[last + 1].bar->written.ending.empty()) {
        ++last;
    }
    return row.bars[last].x + row.bars[last].width - 0.6;
}

void put_at_end(Stacker& stacker, const PlacedBar& placed) {
    const auto& written = placed.bar->written;
    const double end = placed.x + placed.width;
    const auto words = [&](const std::string& text) {
        stacker.put({Kind::words, text, end, 0, true, 0}, width_of(text));
    };
    if (written.to_coda) {
        stacker.put({Kind::to_coda, "to coda", end, 0, true, 0}, width_of("to coda") + sign_width);
    }
    if (written.fine) words("fine");
    if (written.ends_repeat && written.times > 2) words(fmt::format("{} times", written.times));
}

void put_at_start(Stacker& stacker, const PlacedBar& placed, double least) {
    const auto& bar = *placed.bar;
    double x = std::max(placed.x + side_by_side / 2, least);
    if (!bar.written.ending.empty()) x += width_of_number(bar.written.ending) + side_by_side;
    if (bar.written.segno) {
        stacker.put({Kind::segno, "", x, 0, false, 0}, sign_width);
        x += sign_width + side_by_side;
    }
    for (const auto& words : {bar.written.own, bar.written.cue}) {
        if (words.empty()) continue;
        stacker.put({Kind::words, words, x, 0, false, 0}, width_of(words));
    }
}

/// Where a place of a bar stands: at a change with the change, else between two of them.
double x_at(const PlacedBar& placed, double share) {
    double from = 0;
    double x = placed.x + 1;
    double to = 1;
    double end = placed.x + placed.width;
    for (std::size_t i = 0; i < placed.xs.size(); ++i) {
        const double at = placed.bar->changes[i].at;
        if (at <= share) {
            from = at;
            x = placed.xs[i];
        } else if (at < to) {
            to = at;
            end = placed.xs[i];
        }
    }
    return x + (end - x) * (share - from) / (to - from);
}

/// Where accents and fermatas stand.
std::vector<double> marks_of(const SheetRow& row, const Measures& measures) {
    std::vector<double> xs;
    for (const auto& placed : row.bars) {
        for (const double kick : placed.bar->kicks) xs.push_back(mark_at(placed, kick, measures));
        if (placed.bar->held) xs.push_back(mark_at(placed, 1, measures));
    }
    return xs;
}

}  // namespace

void put_over(SheetRow& row, const Sheet& sheet) {
    const auto& paper = sheet.paper;
    Stacker stacker(row, paper);
    double behind_name = 0;
    if (!row.letter.empty() && !is_letter(row.letter)) {
        const double end = paper.left() + width_in_ems(row.letter) * name_size;
        stacker.take(paper.left(), end);
        behind_name = end + 2 * side_by_side;
    }
    for (std::size_t i = 0; i < row.bars.size(); ++i) {
        const auto& written = row.bars[i].bar->written;
        if (!written.in_ending || (i > 0 && written.ending.empty())) continue;
        const double x = row.bars[i].x + bracket_inset;
        stacker.put({Kind::ending, written.ending, x, end_of_ending(row, i), false, 0},
                    width_of_number(written.ending));
    }
    for (const auto& placed : row.bars) put_at_end(stacker, placed);
    for (const auto& placed : row.bars) {
        put_at_start(stacker, placed, &placed == &row.bars.front() ? behind_name : 0);
    }
    // They share the lowest line where there is room between its words.
    for (const double x : marks_of(row, sheet.measures)) {
        row.has_marks = row.has_marks || row.lines == 0 || !stacker.is_free(0, x - 1, x + 1);
    }
    const double lowest = behind_name > 0 ? name_line : sign_line;
    row.above = (row.begins_coda ? coda_gap : 0) + (row.has_marks ? mark_line : 0) +
                (row.lines > 0 ? lowest + (row.lines - 1) * sign_line : 0);
}

double base_line(const SheetRow& row, int line) {
    const bool has_name = !row.letter.empty() && !is_letter(row.letter);
    double y = row.y + row.above - (row.has_marks ? mark_line : 0);
    if (line > 0) y -= (has_name ? name_line : sign_line) + (line - 1) * sign_line;
    return y - (has_name && line == 0 ? 0.4 * name_size : 1);
}

double mark_at(const PlacedBar& placed, double share, const Measures& measures) {
    const double over_root = measures.indent() + 1.6;
    return (share < 1 ? x_at(placed, share) : placed.xs.back() + 1) + over_root;
}

}  // namespace compline::report
