#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace compline::history {

// Whether it got better: the slope of a line through the evenings, by Theil and Sen (the median of
// the slopes between all pairs: one bad evening moves it little), and how sure it is (Sen 1968: the
// interval of the slope from the distribution of Kendall's S).

/// Days since 1970-01-01 of "2026-11-03"; none for what is no date.
[[nodiscard]] std::optional<int> days_of(std::string_view date);
/// Of the years 0 to 9999 (asserted).
[[nodiscard]] std::string date_of(int days);

/// An evening: its day, counted from any, and what is looked at.
struct TrendPoint {
    double day = 0;
    double value = 0;
};

enum class Course {
    too_few,  ///< evenings to tell
    none,     ///< no change to be seen
    better,
    worse,
};
[[nodiscard]] std::string_view name_of(Course course);

inline constexpr std::size_t fewest_evenings = 6;

/// Of too few evenings nothing but their number is known. The line is straight: its ends may lie
/// beyond what values can be.
struct Trend {
    Course course = Course::too_few;
    int evenings = 0;
    double slope = 0;  ///< a day
    double least = 0;  ///< the 95 % interval of the slope; better or worse: without 0
    double most = 0;
    double first = 0;  ///< on the line, at the first evening
    double last = 0;   ///< ... and at the last
};

/// `points`: one a day, ascending (asserted). More is better. Of more than 128 evenings two, three
/// ... in a row are taken together, by their means, so that years cost no more than months.
[[nodiscard]] Trend trend_of(std::span<const TrendPoint> points);

}  // namespace compline::history
