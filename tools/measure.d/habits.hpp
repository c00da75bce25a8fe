#pragma once

#include "measure.d/pupils.hpp"

#include <compline/assess/assessment.hpp>

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace compline::measure {

// Whether the judge says what a pupil does wrong again and again: one habit is planted in the
// simulated guitarist, beside his ordinary scatter and some faults by chance, and what the judge
// names first is compared with it. Where the habit strikes only the guitarist knows.

/// What is planted, and what it should be called.
struct PlantedHabit {
    std::string_view name;
    assess::HabitKind kind = assess::HabitKind::place;
    simulate::Planted::Strikes strikes = simulate::Planted::Strikes::nowhere;
    simulate::Deed deed = simulate::Deed::late;
};
/// Every kind of habit, most with a fault of time, some with one of tones too.
[[nodiscard]] const std::vector<PlantedHabit>& planted_habits();

/// How often the fault strikes where it may; of off-beats the part of 50 ms that they are off.
inline constexpr std::array<double, 3> strengths = {0.6, 0.8, 1.0};

struct HabitFigures {
    int takes = 0;
    int planted = 0;                  ///< takes in which it struck three times or more
    int first = 0;                    ///< named first, by its own kind,
    int same_changes = 0;             ///< or by another that names the same changes
    int anywhere = 0;                 ///< of its own kind or the same changes, first or not
    int cases = 0;                    ///< that were planted in all
    int could = 0;                    ///< changes on which they could have been
    std::vector<std::string> missed;  ///< what was planted, and what was said, for a reader
};

/// So many takes of one habit at one strength, of so many times through.
[[nodiscard]] HabitFigures find_planted(const std::vector<chart::Form>& forms,
                                        const PlantedHabit& planted, double strength, int takes,
                                        int times, std::uint64_t seed);

struct NoHabitFigures {
    int takes = 0;
    int named = 0;  ///< takes of which some habit is said
    std::vector<std::string> said;
};
/// Takes with faults by chance, none to 6 % of each kind, and liberties, but no habit.
[[nodiscard]] NoHabitFigures find_none(const std::vector<chart::Form>& forms, int takes, int times,
                                       std::uint64_t seed);

struct AstrayFigures {
    int takes = 0;
    int runs = 0;   ///< of four changes or more elsewhere in the form
    int found = 0;  ///< by the right number of bars
    int by_other_bars = 0;
    int false_runs = 0;  ///< said where nobody was lost
    int clean_takes = 0;
    int false_takes = 0;  ///< of the clean ones
    std::vector<std::string> missed;
};
/// Half of the takes have runs in them, half nobody is lost in.
[[nodiscard]] AstrayFigures find_astray(const std::vector<chart::Form>& forms, int takes,
                                        std::uint64_t seed);

}  // namespace compline::measure
