#include "place_rows.hpp"

#include <compline/history/evenings.hpp>

namespace compline::history {

std::vector<TrendPoint> evenings_of(const TuneHistory& tune, const PlaceStory& place,
                                    const std::string& since) {
    PlaceEvening looked_for;
    looked_for.bar = place.bar;
    looked_for.beat = place.beat;
    looked_for.from = place.from;
    looked_for.to = place.to;
    std::vector<TrendPoint> points;
    for (const auto& evening : by_evening(rows_of(tune, looked_for, since))) {
        points.push_back({static_cast<double>(evening.day), evening.sums.share_both()});
    }
    return points;
}

}  // namespace compline::history
