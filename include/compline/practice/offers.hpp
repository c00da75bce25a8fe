#pragma once

#include <compline/chart/form.hpp>
#include <compline/practice/scoring.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// Where a take hardly fits what it is judged by, it was mostly not played badly but to something
// else: bar 1 was a bar later, there was a capo, the tempo was half. Each of these is tried, what
// was heard being judged again by it, and the best is offered in the words of an option.

/// Changes that are right, in their tones (where these were heard) and in time, of those that are
/// due.
struct RightChanges {
    int right = 0;
    int of = 0;
    [[nodiscard]] bool are_few() const { return 2 * right < of; }
    [[nodiscard]] double share() const { return of == 0 ? 0 : static_cast<double>(right) / of; }
};
[[nodiscard]] RightChanges right_changes(const Report& report);

/// What helps with the whole take: one hint, or none. It at least doubles the share of changes
/// that are right, and then these are half or more. Nothing is tried where that could not be. A
/// take of ours began when it began, and in the tempo it had: for it only another key is offered,
/// and nothing where it was heard by sound.
[[nodiscard]] std::vector<Hint> offers(const chart::Form& form, const Take& take,
                                       const ScoreRequest& request, const Report& report);

/// A chart that it may have been played to.
struct OtherChart {
    std::string file;  ///< as the option is to name it; no control characters
    chart::Form form;
};

/// The same among other charts: the one that the take fits, where it fits one better than what is
/// offered already. None for a take of ours, which had its band play its own.
[[nodiscard]] std::optional<Hint> offer_among(std::span<const OtherChart> charts, const Take& take,
                                              const ScoreRequest& request, const Report& report);

}  // namespace compline::practice
