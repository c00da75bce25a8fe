#pragma once

#include <compline/practice/scoring.hpp>

namespace compline::practice {

/// What was played along to, as far as it is known before a take has been heard, and which of it
/// is to be judged.
struct MeantRoad {
    roadmap::RoadMap map;
    std::optional<chart::Passage> part = {};  ///< none: all of it
    bool ended = false;                       ///< the map ends where the take does
};

/// Throws text::BadInput when the take cannot have been played to that form.
[[nodiscard]] MeantRoad what_was_meant(const chart::Form& form, const Take& take,
                                       const ScoreRequest& request);

/// The same take judged otherwise, by another form, or as asked for now: what was heard of it once
/// is not heard again. `heard` was counted from the request's offset on; it is counted from
/// `further` after that now. No hints are sought. Throws text::BadInput.
[[nodiscard]] Report judged_otherwise(const chart::Form& form, const Take& take,
                                      const ScoreRequest& request, const Report& heard,
                                      time::Seconds further);

}  // namespace compline::practice
