#include "../assess/median.hpp"
#include "kendall.hpp"

#include <compline/history/trend.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <vector>

namespace compline::history {

namespace {

constexpr std::size_t most_points = 128;

/// Neighbours taken together, where there are too many for all pairs of them.
std::vector<TrendPoint> pooled(std::span<const TrendPoint> points) {
    const auto together = (points.size() + most_points - 1) / most_points;
    std::vector<TrendPoint> means;
    for (std::size_t from = 0; from < points.size(); from += together) {
        const auto group = points.subspan(from, std::min(together, points.size() - from));
        TrendPoint mean;
        for (const auto& point : group) {
            mean.day += point.day / static_cast<double>(group.size());
            mean.value += point.value / static_cast<double>(group.size());
        }
        means.push_back(mean);
    }
    return means;
}

/// Between all pairs.
std::vector<double> slopes_of(const std::vector<TrendPoint>& points) {
    std::vector<double> slopes;
    slopes.reserve(points.size() * (points.size() - 1) / 2);
    for (std::size_t later = 1; later < points.size(); ++later) {
        for (std::size_t earlier = 0; earlier < later; ++earlier) {
            const double up = points[later].value - points[earlier].value;
            const double days = points[later].day - points[earlier].day;
            slopes.push_back(std::fabs(up) < alike_within ? 0 : up / days);
        }
    }
    return slopes;
}

double at_rank(std::vector<double>& values, std::size_t rank) {
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

/// The ranks, from below and from above, that chance leaves: so that a least slope above 0 says
/// that S is critical, and the other way round where no values are alike.
std::size_t left_out(const std::vector<TrendPoint>& points, std::size_t pairs) {
    std::vector<double> values;
    values.reserve(points.size());
    for (const auto& point : points) values.push_back(point.value);
    const auto critical = critical_s(values);
    const int spare = static_cast<int>(pairs) - critical.value_or(static_cast<int>(pairs));
    return static_cast<std::size_t>(std::max(spare, 0)) / 2;
}

double height_at_0(const std::vector<TrendPoint>& points, double slope) {
    std::vector<double> heights;
    heights.reserve(points.size());
    for (const auto& point : points) heights.push_back(point.value - slope * point.day);
    return assess::median(std::move(heights));
}

}  // namespace

std::string_view name_of(Course course) {
    constexpr std::array<std::string_view, 4> names = {"too_few", "none", "better", "worse"};
    return names.at(static_cast<std::size_t>(course));
}

Trend trend_of(std::span<const TrendPoint> points) {
    assert(std::adjacent_find(points.begin(), points.end(), [](const auto& one, const auto& next) {
               return one.day >= next.day;
           }) == points.end());
    Trend trend;
    trend.evenings = static_cast<int>(points.size());
    if (points.size() < fewest_evenings) return trend;
    const auto taken = pooled(points);
    auto slopes = slopes_of(taken);
    const auto out = left_out(taken, slopes.size());
    const auto last = slopes.size() - 1;
    trend.least = at_rank(slopes, out);
    trend.most = at_rank(slopes, last - out);
    trend.slope = (at_rank(slopes, last / 2) + at_rank(slopes, last - last / 2)) / 2;
    const double height = height_at_0(taken, trend.slope);
    trend.first = height + trend.slope * points.front().day;
    trend.last = height + trend.slope * points.back().day;
    trend.course = trend.least > 0 ? Course::better : trend.most < 0 ? Course::worse : Course::none;
    return trend;
}

}  // namespace compline::history
