#include "additive_fit.hpp"
#include "evening_shares.hpp"
#include "place_rows.hpp"

#include <algorithm>

namespace compline::history {

namespace {

std::vector<EveningShare> shares_of_whole_tunes(const TuneHistory& tune, const std::string& since) {
    std::vector<EveningShare> shares;
    for (const auto& evening : tune.evenings) {
        const auto day = days_of(evening.date);
        if (!day || evening.date < since || evening.whole.of == 0) continue;
        shares.push_back({evening.date, *day, evening.whole.share_in_time(), evening.whole.of,
                          evening.whole_bpm});
    }
    return shares;
}

void set_tempi(const TuneHistory& tune, std::vector<EveningShare>& shares) {
    for (auto& share : shares) {
        const auto found = std::find_if(tune.evenings.begin(), tune.evenings.end(),
                                        [&](const auto& one) { return one.date == share.date; });
        if (found != tune.evenings.end()) share.bpm = found->usual_bpm;
    }
}

}  // namespace

bool is_told_by_whole_tunes(const TuneHistory& tune, const std::string& since) {
    std::size_t all = 0;
    std::size_t whole = 0;
    for (const auto& evening : tune.evenings) {
        if (evening.date < since || evening.sums.of == 0) continue;
        ++all;
        if (evening.whole.of > 0) ++whole;
    }
    return whole >= fewest_evenings && 2 * whole >= all;
}

std::vector<EveningShare> evening_shares(const TuneHistory& tune, const std::string& since) {
    if (is_told_by_whole_tunes(tune, since)) return shares_of_whole_tunes(tune, since);
    std::vector<EveningShare> evenings;
    std::vector<FitCell> cells;
    PlaceNumbers places;
    for (const auto& row : tune.places) {
        if (row.sums.of == 0 || row.date < since) continue;
        if (evenings.empty() || evenings.back().date != row.date) {
            const auto day = days_of(row.date);
            if (!day) continue;
            evenings.push_back({row.date, *day, 0, 0, 0});
        }
        evenings.back().of += row.sums.of;
        cells.push_back({evenings.size() - 1, places.of(row), static_cast<double>(row.sums.of),
                         static_cast<double>(row.sums.in_time)});
    }
    const AdditiveFit fit(std::move(cells), evenings.size(), places.count());
    const auto values = fit.evening_values();
    for (std::size_t i = 0; i < evenings.size(); ++i)
        evenings[i].share = std::clamp(values[i], 0.0, 1.0);
    set_tempi(tune, evenings);
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
