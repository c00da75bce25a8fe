#pragma once

#include <compline/history/story.hpp>

#include <string>
#include <vector>

namespace compline::history {

// Evening by evening: what a story's trends are drawn from.

/// An evening's share of changes in time, like for like (see story.hpp).
struct EveningShare {
    std::string date;
    int day = 0;  ///< since 1970-01-01
    double share = 0;
    int of = 0;      ///< changes
    double bpm = 0;  ///< the usual tempo; 0: not known
};

/// As like_for_like(), of evenings on `since` and later: the points of a story's trend.
[[nodiscard]] std::vector<EveningShare> evening_shares(const TuneHistory& tune,
                                                       const std::string& since = "");

/// As a trend is made of.
[[nodiscard]] std::vector<TrendPoint> points_of(const std::vector<EveningShare>& shares);

/// The points of a place's trend: its share of changes in time and right.
[[nodiscard]] std::vector<TrendPoint> evenings_of(const TuneHistory& tune, const PlaceStory& place,
                                                  const std::string& since = "");

}  // namespace compline::history
