#pragma once

#include <compline/practice/report.hpp>

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace compline::practice {

// A take seen by place: how each change of the form went, over all times through. Takes are
// compared so, and added up.

/// What may be wrong with a change, one thing beside another.
enum class PlaceFault { late, early, missed, astray, wait, left_out, wrong, incomplete };
inline constexpr std::size_t place_faults = 8;
[[nodiscard]] std::string_view name_of(PlaceFault fault);

/// How a place went; what is uncertain does not count.
struct PlaceFigures {
    int of = 0;     ///< changes
    int right = 0;  ///< of those, played in time and, where tones were heard, with the right ones
    std::array<int, place_faults> faults{};
    int laid_out = 0;      ///< of those without a fault
    double cost = 0;       ///< of all
    double late_sum = 0;   ///< milliseconds, of those that are late; never negative
    double early_sum = 0;  ///< the same of those that are early

    [[nodiscard]] int count(PlaceFault fault) const {
        return faults[static_cast<std::size_t>(fault)];
    }
    /// Not laid out.
    [[nodiscard]] int played() const { return of - laid_out; }
    [[nodiscard]] double cost_each() const { return of == 0 ? 0 : cost / of; }
    /// On average; none where none is late, or early.
    [[nodiscard]] std::optional<double> late_ms() const;
    [[nodiscard]] std::optional<double> early_ms() const;
    PlaceFigures& operator+=(const PlaceFigures& more);
};

/// The change of a place, and how it went.
struct PlaceInTakes {
    std::string section;
    std::optional<harmony::Chord> from;
    harmony::Chord to;
    PlaceFigures figures;
};

/// By the bar's number in the form and the beat.
using Places = std::map<std::pair<int, time::BeatOfBar>, PlaceInTakes>;

/// The seam of a loop is no place of the tune.
[[nodiscard]] Places places_of(const Report& report);

/// Adds what was played later: section and chords are named as they are there.
void add(const Places& later, Places& all);

}  // namespace compline::practice
