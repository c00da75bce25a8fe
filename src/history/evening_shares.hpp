#pragma once

#include <compline/history/story.hpp>

#include <string>
#include <vector>

namespace compline::history {

/// An evening's share of changes in time, like for like.
struct EveningShare {
    std::string date;
    int day = 0;
    double share = 0;
    int of = 0;  ///< changes
};

/// As like_for_like(), of evenings on `since` and later.
[[nodiscard]] std::vector<EveningShare> evening_shares(const TuneHistory& tune,
                                                       const std::string& since);

[[nodiscard]] std::vector<TrendPoint> points_of(const std::vector<EveningShare>& shares);

}  // namespace compline::history
