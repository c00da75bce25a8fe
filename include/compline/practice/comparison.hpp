#pragma once

#include <compline/practice/offers.hpp>
#include <compline/practice/places.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// Two takes of a tune, or several on either side, place by place: what got better, what got worse.

/// A bar and a beat, on both sides; `from` and `to` are those of the second.
struct ComparedPlace {
    int bar = 1;
    time::BeatOfBar beat;
    std::string section;
    std::optional<harmony::Chord> from;
    harmony::Chord to;
    PlaceFigures before;
    PlaceFigures after;

    /// What a change costs less; - is more.
    [[nodiscard]] double gain() const { return before.cost_each() - after.cost_each(); }
    [[nodiscard]] bool is_better() const;
    [[nodiscard]] bool is_worse() const;
    [[nodiscard]] bool is_same() const { return !is_better() && !is_worse(); }
};

struct Comparison {
    std::vector<ComparedPlace> places;  ///< that both have, in order of the form
    int only_before = 0;                ///< places of the first alone
    int only_after = 0;
    RightChanges right_before;
    RightChanges right_after;
    bool time_alone = false;  ///< one of them, or all, was heard by sound
};

/// The takes of each side count together, in whatever keys they were played (their places are the
/// same). Where tones were heard in some takes only, all are judged by time alone.
[[nodiscard]] Comparison compare(std::span<const Report> before, std::span<const Report> after);
[[nodiscard]] inline Comparison compare(const Report& before, const Report& after) {
    return compare(std::span(&before, 1), std::span(&after, 1));
}

}  // namespace compline::practice
