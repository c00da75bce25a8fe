#include "place_rows.hpp"

#include <algorithm>
#include <tuple>

namespace compline::history {

namespace {

constexpr int lately_days = 28;
constexpr int lately_evenings = 3;
constexpr int fewest_changes = 3;
constexpr int fewest_weak_evenings = 2;
constexpr int fewest_faults = 2;

bool is_one_place(const PlaceEvening& one, const PlaceEvening& other) {
    return one.beat == other.beat && one.to == other.to && one.from == other.from;
}

std::vector<PlaceEvening>::const_iterator first_since(const TuneHistory& tune,
                                                      const std::string& since) {
    return std::partition_point(tune.places.begin(), tune.places.end(),
                                [&](const auto& row) { return row.date < since; });
}

}  // namespace

std::size_t PlaceNumbers::of(const PlaceEvening& row) {
    const auto bar = static_cast<std::size_t>(std::max(row.bar, 0));
    if (bar >= by_bar_.size()) by_bar_.resize(bar + 1);
    for (const auto& known : by_bar_[bar]) {
        if (is_one_place(*known.first, row)) return known.number;
    }
    by_bar_[bar].push_back({&row, count_});
    return count_++;
}

std::vector<PlaceEvenings> rows_by_place(const TuneHistory& tune, const std::string& since) {
    PlaceNumbers numbers;
    std::vector<PlaceEvenings> groups;
    for (auto row = first_since(tune, since); row != tune.places.end(); ++row) {
        if (row->sums.of == 0) continue;
        const auto number = numbers.of(*row);
        if (number == groups.size()) groups.emplace_back();
        groups[number].push_back(&*row);
    }
    std::stable_sort(groups.begin(), groups.end(), [](const auto& one, const auto& other) {
        return std::tuple(one.front()->bar, one.front()->beat) <
               std::tuple(other.front()->bar, other.front()->beat);
    });
    return groups;
}

PlaceEvenings rows_of(const TuneHistory& tune, const PlaceEvening& place,
                      const std::string& since) {
    PlaceEvenings rows;
    for (auto row = first_since(tune, since); row != tune.places.end(); ++row) {
        if (row->bar == place.bar && row->sums.of > 0 && is_one_place(*row, place))
            rows.push_back(&*row);
    }
    return rows;
}

void add(ChangeSums& to, const ChangeSums& sums) {
    to.of += sums.of;
    to.in_time += sums.in_time;
    to.right += sums.right;
    to.both += sums.both;
    to.cost += sums.cost;
}

ChangeSums sums_of(const PlaceEvenings& rows, const std::string& since) {
    ChangeSums sums;
    for (const auto* row : rows) {
        if (row->date >= since) add(sums, row->sums);
    }
    return sums;
}

int evenings_of(const PlaceEvenings& rows) {
    int evenings = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        evenings += i == 0 || rows[i]->date != rows[i - 1]->date ? 1 : 0;
    return evenings;
}

std::vector<EveningSums> by_evening(const PlaceEvenings& rows) {
    std::vector<EveningSums> evenings;
    for (const auto* row : rows) {
        const auto day = days_of(row->date);
        if (!day) continue;
        if (evenings.empty() || evenings.back().day != *day) evenings.push_back({*day, {}});
        add(evenings.back().sums, row->sums);
    }
    return evenings;
}

Trend trend_of(const std::vector<EveningSums>& evenings) {
    std::vector<TrendPoint> points;
    points.reserve(evenings.size());
    for (const auto& evening : evenings)
        points.push_back({static_cast<double>(evening.day), evening.sums.share_both()});
    return trend_of(points);
}

std::string lately_from(const TuneHistory& tune) {
    std::string first;
    int evenings = 0;
    std::optional<int> last;
    for (auto i = tune.evenings.size(); i-- > 0;) {
        const auto& evening = tune.evenings[i];
        const auto day = days_of(evening.date);
        if (evening.sums.of == 0 || !day) continue;
        if (!last) last = day;
        if (++evenings > lately_evenings && *last - *day >= lately_days) break;
        first = evening.date;
    }
    return first;
}

bool is_weak(const PlaceEvenings& lately) {
    const auto sums = sums_of(lately);
    const int faults = sums.of - sums.both;
    return sums.of >= fewest_changes && faults >= fewest_faults && sums.both * 10 < sums.of * 9 &&
           evenings_of(lately) >= fewest_weak_evenings;
}

std::vector<std::size_t> weakest_first(const std::vector<PlaceEvenings>& lately) {
    std::vector<std::pair<double, std::size_t>> by_cost;
    for (std::size_t i = 0; i < lately.size(); ++i) {
        if (!is_weak(lately[i])) continue;
        const auto sums = sums_of(lately[i]);
        by_cost.emplace_back(-sums.cost / sums.of, i);
    }
    std::sort(by_cost.begin(), by_cost.end());
    std::vector<std::size_t> order;
    order.reserve(by_cost.size());
    for (const auto& [cost, i] : by_cost) order.push_back(i);
    return order;
}

void sort_by_date(PlaceEvenings& rows) {
    std::stable_sort(rows.begin(), rows.end(),
                     [](const auto* one, const auto* other) { return one->date < other->date; });
}

}  // namespace compline::history
