#pragma once

#include <compline/practice/offers.hpp>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::practice {

// Two takes of a tune, place by place: what got better, what got worse.

/// What may be wrong with a change, one thing beside another.
enum class PlaceFault { late, early, missed, astray, wait, left_out, wrong, incomplete };
inline constexpr std::size_t place_faults = 8;
[[nodiscard]] std::string_view name_of(PlaceFault fault);

/// How a place went in one take, over all times through; what is uncertain does not count.
struct PlaceFigures {
    int of = 0;  ///< changes
    std::array<int, place_faults> faults{};
    int laid_out = 0;  ///< of those without a fault
    double cost = 0;   ///< of all
    /// Of those that are late, and of those that are early; never negative.
    std::optional<double> late_ms;
    std::optional<double> early_ms;

    [[nodiscard]] int count(PlaceFault fault) const {
        return faults[static_cast<std::size_t>(fault)];
    }
    [[nodiscard]] double cost_each() const { return of == 0 ? 0 : cost / of; }
};

/// A bar and a beat, in both takes; `from` and `to` are those of the second.
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
};

struct Comparison {
    std::vector<ComparedPlace> places;  ///< that both have, in order of the form
    int only_before = 0;                ///< places of the first alone
    int only_after = 0;
    RightChanges right_before;
    RightChanges right_after;
    bool time_alone = false;  ///< one of them, or both, was heard by sound
};

/// The seam of a loop is no place of the tune. Where tones were heard in one take only, both are
/// judged by time alone.
[[nodiscard]] Comparison compare(const Report& before, const Report& after);

}  // namespace compline::practice
