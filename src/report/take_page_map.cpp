#include "take_page_map.hpp"

#include "picture.hpp"
#include "words.hpp"

#include <compline/practice/ladder.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/report/tempi.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <set>

namespace compline::report {

namespace {

// Words of 40 stand apart here: on a phone, where the picture is half as large, they are twice so.
constexpr double map_width = 800;
constexpr double map_left = 92;
constexpr double map_top = 46;
constexpr double apart = 40;
constexpr double tallest_row = 28;
constexpr double lowest_row = 3;
constexpr double usual_height = 340;

/// What shades tell apart: nothing to mend, less than a third of a missed change, and so on.
constexpr int shades = 5;
int shade_of(double cost) {
    if (cost <= 0) return 0;
    return std::min(shades - 1, 1 + static_cast<int>(cost * 3));
}

/// The cost of a bar in each time through; none where nothing was judged there.
using Costs = std::vector<std::vector<std::optional<double>>>;

Costs costs_of(const practice::Report& report, chart::Passage reach) {
    const auto& way = report.map.way();
    Costs costs(way.stretches.size());
    for (auto& row : costs) row.resize(static_cast<std::size_t>(reach.bars()));
    const auto cell = [&](int time_through, int bar) -> std::optional<double>& {
        return costs[static_cast<std::size_t>(time_through - 1)]
                    [static_cast<std::size_t>(bar - reach.from)];
    };
    for (const auto& change : report.assessment.changes) {
        if (change.uncertain || change.seam) continue;
        auto& cost = cell(change.time_through, change.bar);
        cost = cost.value_or(0) + change.cost();
    }
    return costs;
}

class CostMap {
  public:
    CostMap(const practice::Report& report, const Costs& costs, chart::Passage reach)
        : report_(report), costs_(costs), reach_(reach) {
        const auto rows = static_cast<double>(costs.size());
        row_ = std::clamp(usual_height / rows, lowest_row, tallest_row);
        column_ = std::min((map_width - map_left) / reach.bars(), 3 * tallest_row);
    }

    [[nodiscard]] std::string svg() const {
        Picture picture(map_width, map_top + row_ * static_cast<double>(costs_.size()) + 4);
        shaded(picture);
        across(picture);
        down(picture);
        return picture.svg("map");
    }

  private:
    void shaded(Picture& picture) const {
        std::array<std::vector<Box>, shades> boxes;
        const double gap = row_ > 8 ? 1.5 : 0.5;
        for (std::size_t y = 0; y < costs_.size(); ++y) {
            for (std::size_t x = 0; x < costs_[y].size(); ++x) {
                if (!costs_[y][x]) continue;
                boxes[static_cast<std::size_t>(shade_of(*costs_[y][x]))].push_back(
                    {map_left + static_cast<double>(x) * column_,
                     map_top + static_cast<double>(y) * row_, column_ - gap, row_ - gap});
            }
        }
        for (std::size_t i = 0; i < boxes.size(); ++i) {
            picture.boxes(boxes[i], fmt::format("shade{}", i));
        }
    }

    /// Bar numbers, where a section begins and as often as they fit.
    void across(Picture& picture) const {
        double free = map_left;
        const auto name = [&](int bar) {
            const double x = map_left + (bar - reach_.from) * column_;
            if (x < free) return;
            picture.words({x, map_top - 8}, std::to_string(bar), "number");
            free = x + 2 * apart;
        };
        for (int bar = reach_.from; bar <= reach_.to; ++bar) {
            if ((bar - reach_.from) % 4 == 0) name(bar);
        }
    }

    /// Tempi where they change, else which time it is.
    void down(Picture& picture) const {
        const auto& map = report_.map;
        const bool tempi = tempi_played(map).size() > 1;
        double free = map_top;
        std::string last;
        for (std::size_t i = 0; i < costs_.size(); ++i) {
            const int time = static_cast<int>(i) + 1;
            const auto words = tempi ? tempo_number(tempo_of_time(map, time)) : ordinal(time);
            const double y = map_top + static_cast<double>(i) * row_;
            if (words == last || y < free) continue;
            last = words;
            free = y + apart;
            picture.words({map_left - 8, y + std::max(16.0, std::min(row_, 20.0))}, words, "row");
        }
    }

    const practice::Report& report_;
    const Costs& costs_;
    chart::Passage reach_;
    double row_ = tallest_row;
    double column_ = tallest_row;
};

std::string faulty_bars(const std::vector<std::optional<double>>& row, int first) {
    std::string text;
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (row[i].value_or(0) <= 0) continue;
        text += fmt::format("{}{}", text.empty() ? "" : ", ", first + static_cast<int>(i));
    }
    return text.empty() ? "none" : text;
}

std::string map_table(const practice::Report& report, const Costs& costs, int first) {
    const bool tones = practice::judges_tones(report);
    PageTable table("Every time through", {"time", "bpm", tones ? "in time and right" : "in time",
                                           "of", "missed", "bars with faults"});
    for (std::size_t i = 0; i < costs.size(); ++i) {
        const int time = static_cast<int>(i) + 1;
        const auto played = practice::played_changes(report.assessment, time);
        table.row({ordinal(time), tempo_number(tempo_of_time(report.map, time)),
                   std::to_string(played.right), std::to_string(played.due),
                   std::to_string(played.missed), faulty_bars(costs[i], first)});
    }
    return table.markup();
}

bool is_clean_row(const std::vector<std::optional<double>>& row) {
    return std::all_of(row.begin(), row.end(),
                       [](const auto& cost) { return cost.value_or(0) <= 0; });
}

std::string key_of_shades() {
    std::string ramp;
    Picture picture(100, 20);
    for (int i = 0; i < shades; ++i) {
        picture.box({i * 20.0, 0, 19, 20}, fmt::format("shade{}", i));
    }
    return key_entry(picture.svg("ramp"), "nothing to mend, to a change missed and more") +
           key_entry("", "left empty: no change of the tune");
}

}  // namespace

time::Bpm tempo_of_time(const roadmap::RoadMap& map, int time_through) {
    return map.bar(map.first_bar(time_through)).tune_tempo;
}

PagePart map_part(const practice::Report& report) {
    const auto reach = report.map.way().reach();
    const auto costs = costs_of(report, reach);
    if (costs.size() < 2 || report.assessment.changes.empty()) return {};
    const auto clean = std::count_if(costs.begin(), costs.end(), is_clean_row);
    PagePart part{"map", "Every time through", "", "", "", ""};
    part.says = fmt::format("{} of {} times through had nothing to mend.", clean, costs.size());
    part.picture = CostMap(report, costs, reach).svg();
    part.below = key_of_shades();
    part.table = map_table(report, costs, reach.from);
    return part;
}

}  // namespace compline::report
