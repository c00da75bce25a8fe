#pragma once

#include "counts.hpp"
#include "habit_groups.hpp"

#include <compline/assess/assessment.hpp>

#include <array>
#include <optional>
#include <vector>

namespace compline::assess {

/// Finds what the faults of one matter have in common: again and again the group that tells best
/// where they come, by which its changes are explained and looked at no more.
class HabitSearch {
  public:
    /// All must outlive it.
    HabitSearch(const std::vector<Change>& changes, const std::vector<HabitGroup>& groups,
                HabitMatter matter);

    /// The best told first.
    [[nodiscard]] std::vector<Habit> find();

  private:
    static constexpr std::size_t fault_kinds = 3;
    /// Of each fault of the matter, and of any of them last.
    using Cases = std::array<int, fault_kinds + 1>;

    /// Cases among changes that nothing explains yet.
    struct OpenCounts {
        int of = 0;
        Cases cases{};
        [[nodiscard]] Share share(std::size_t fault) const { return {cases[fault], of}; }
    };
    struct FoundGroup {
        const HabitGroup* group = nullptr;
        std::size_t fault = fault_kinds;
        double nats = 0;
    };

    [[nodiscard]] std::size_t number_of(HabitFault fault) const;
    [[nodiscard]] bool concerns(HabitKind kind) const;
    [[nodiscard]] bool is_case(std::size_t change, std::size_t fault) const;
    [[nodiscard]] OpenCounts count(const std::vector<std::size_t>& members) const;
    [[nodiscard]] bool is_habit(Share here, Share elsewhere, double groups_tried) const;
    [[nodiscard]] double groups_of(HabitKind kind) const;
    [[nodiscard]] bool is_better(const HabitGroup& group, double nats,
                                 const FoundGroup& than) const;
    [[nodiscard]] std::optional<FoundGroup> best() const;
    [[nodiscard]] FoundGroup narrowed(FoundGroup found) const;
    [[nodiscard]] std::vector<std::size_t> cases_of(const FoundGroup& found) const;
    [[nodiscard]] Habit habit_of(const FoundGroup& found) const;
    /// Foreign tones on one string, where that tells better than `nats` where they come.
    [[nodiscard]] std::optional<Habit> on_a_string(double nats) const;
    [[nodiscard]] bool is_on_string(std::size_t change, int string) const;
    void explain(const std::vector<std::size_t>& members);

    const std::vector<Change>& changes_;
    const std::vector<HabitGroup>& groups_;
    HabitMatter matter_;
    CountTests tests_;
    std::vector<std::optional<HabitFault>> faults_;
    std::vector<std::size_t> open_;  ///< changes that could fail and are not explained
    std::vector<char> is_open_;      ///< ... of each change
    std::array<int, habit_kinds> tried_{};
};

}  // namespace compline::assess
