#include "additive_fit.hpp"
#include "evening_shares.hpp"
#include "place_rows.hpp"

#include <algorithm>

namespace compline::history {

std::vector<EveningShare> evening_shares(const TuneHistory& tune, const std::string& since) {
    std::vector<EveningShare> evenings;
    std::vector<FitCell> cells;
    PlaceNumbers places;
    for (const auto& row : tune.places) {
        if (row.sums.of == 0 || row.date < since) continue;
        if (evenings.empty() || evenings.back().date != row.date) {
            const auto day = days_of(row.date);
            if (!day) continue;
            evenings.push_back({row.date, *day, 0, 0});
        }
        evenings.back().of += row.sums.of;
        cells.push_back({evenings.size() - 1, places.of(row), static_cast<double>(row.sums.of),
                         static_cast<double>(row.sums.in_time)});
    }
    const AdditiveFit fit(std::move(cells), evenings.size(), places.count());
    const auto values = fit.evening_values();
    for (std::size_t i = 0; i < evenings.size(); ++i)
        evenings[i].share = std::clamp(values[i], 0.0, 1.0);
    return evenings;
}

std::vector<TrendPoint> points_of(const std::vector<EveningShare>& shares) {
    std::vector<TrendPoint> points;
    points.reserve(shares.size());
    for (const auto& evening : shares)
        points.push_back({static_cast<double>(evening.day), evening.share});
    return points;
}

std::vector<TrendPoint> like_for_like(const TuneHistory& tune) {
    return points_of(evening_shares(tune, ""));
}

}  // namespace compline::history
