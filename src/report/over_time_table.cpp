#include "over_time_table.hpp"

#include "over_time_cells.hpp"
#include "words.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using practice::OverTime;
using practice::PlaceOverTime;

constexpr int widest_change = 16;  ///< "B♭m7 → E♭7" and more
constexpr int between_columns = 2;
/// No more evenings fit beside one another than that.
constexpr std::size_t most_columns = 12;

bool in_several_years(const OverTime& over) {
    const auto& first = over.evenings.front().date;
    return std::any_of(over.evenings.begin(), over.evenings.end(), [&](const auto& evening) {
        return !evening.date.empty() && year_of(evening.date) != year_of(first);
    });
}

/// A table while it is made: names at the left, cells, and what became of it at the right.
struct PlaceLine {
    std::string bar;
    std::string change;
    std::vector<std::string> cells;
    std::string became;
};
using PlaceLines = std::vector<PlaceLine>;

PlaceLine names_of_place(const PlaceOverTime& place, bool one_evening) {
    const auto& between = place.between;
    auto bar = std::to_string(between.bar);
    if (between.beat != time::BeatOfBar(1)) bar += " beat " + plain(between.beat.number());
    const auto from = between.from ? between.from->symbol() + " → " : std::string();
    return {bar,
            cut_to_columns(from + between.to.symbol(), widest_change),
            {},
            one_evening ? "" : std::string(name_of(place.became()))};
}

/// The columns of the table, the first of them with so many evenings.
class TableOfEvenings {
  public:
    TableOfEvenings(const OverTime& over, const PlaceRows& rows, std::size_t joined)
        : over_(over), joined_(joined) {
        add_head();
        lines_.push_back({});
        for (const auto* place : rows) add_place(*place);
        measure();
    }

    [[nodiscard]] int columns() const {
        int columns = bar_ + change_ + became_ + 2 * between_columns;
        for (const int width : widths_) columns += between_columns + width;
        return became_ > 0 ? columns + between_columns : columns;
    }

    [[nodiscard]] std::string text() const {
        std::string text;
        for (const auto& line : lines_) {
            const std::string blanks(between_columns, ' ');
            auto row = blanks + padded(line.bar, bar_) + blanks + padded(line.change, change_);
            for (std::size_t i = 0; i < line.cells.size(); ++i) {
                const int before = widths_[i] - columns_of(line.cells[i]) + between_columns;
                row.append(static_cast<std::size_t>(before), ' ').append(line.cells[i]);
            }
            row += blanks + line.became;
            text += row.erase(row.find_last_not_of(' ') + 1) + "\n";
        }
        return text;
    }

  private:
    template <typename CellOf>
    [[nodiscard]] std::vector<std::string> cells(CellOf cell_of_evenings) const {
        std::vector<std::string> all;
        for (std::size_t from = 0; from < over_.evenings.size();) {
            const auto to = from == 0 ? joined_ : from + 1;
            all.push_back(cell_of_evenings(from, to));
            from = to;
        }
        return all;
    }
    template <typename CellOf>
    void add_head_line(const char* bar, const char* change, CellOf cell_of_evenings) {
        lines_.push_back({bar, change, cells([&](std::size_t from, std::size_t to) {
                              return cell_of_evenings(
                                  EveningsInColumn(over_.evenings).subspan(from, to - from));
                          }),
                          ""});
    }
    void add_head() {
        add_head_line("bar", "change", day_cell);
        if (in_several_years(over_)) {
            add_head_line("", "", [](EveningsInColumn e) { return year_of(e.back().date); });
        }
        add_head_line("tempo", "", tempo_cell);
        if (over_.in_several_keys()) add_head_line("key", "", key_cell);
        add_head_line("all", "", all_cell);
    }
    void add_place(const PlaceOverTime& place) {
        auto line = names_of_place(place, over_.evenings.size() == 1);
        line.cells = cells([&](std::size_t from, std::size_t to) {
            return place_cell(place, from, to, over_.time_alone);
        });
        lines_.push_back(std::move(line));
    }
    void measure() {
        widths_.assign(lines_.front().cells.size(), 0);
        for (const auto& line : lines_) {
            bar_ = std::max(bar_, columns_of(line.bar));
            change_ = std::max(change_, columns_of(line.change));
            became_ = std::max(became_, columns_of(line.became));
            for (std::size_t i = 0; i < line.cells.size(); ++i) {
                widths_[i] = std::max(widths_[i], columns_of(line.cells[i]));
            }
        }
    }

    const OverTime& over_;
    std::size_t joined_;
    PlaceLines lines_;
    int bar_ = 0;
    int change_ = 0;
    int became_ = 0;
    std::vector<int> widths_;
};

}  // namespace

OverTimeTable over_time_table(const OverTime& over, const PlaceRows& rows) {
    const auto evenings = over.evenings.size();
    for (auto joined = evenings > most_columns ? evenings - most_columns + 1 : 1;; ++joined) {
        const TableOfEvenings table(over, rows, joined);
        if (joined == evenings || table.columns() <= terminal_columns) {
            return {table.text(), joined};
        }
    }
}

}  // namespace compline::report
