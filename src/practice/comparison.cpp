#include <compline/practice/comparison.hpp>
#include <compline/practice/time_alone.hpp>

#include <algorithm>

namespace compline::practice {

namespace {

/// Less is chance: 20 ms a change, or one wrong grip in five (a judgement, no source).
constexpr double noticeable = 0.1;

struct ComparedSide {
    Places places;
    RightChanges right;
};

ComparedSide side_of(std::span<const Report> takes, bool by_time) {
    ComparedSide side;
    const auto take_in = [&](const Report& report) {
        add(places_of(report), side.places);
        const auto right = right_changes(report);
        side.right.right += right.right;
        side.right.of += right.of;
    };
    for (const auto& take : takes) {
        if (by_time) {
            take_in(by_time_alone(take));
        } else {
            take_in(take);
        }
    }
    return side;
}

}  // namespace

bool ComparedPlace::is_better() const { return gain() >= noticeable; }
bool ComparedPlace::is_worse() const { return gain() <= -noticeable; }

Comparison compare(std::span<const Report> before, std::span<const Report> after) {
    const auto all = [&](auto is) {
        return std::all_of(before.begin(), before.end(), is) &&
               std::all_of(after.begin(), after.end(), is);
    };
    Comparison comparison;
    comparison.time_alone = !all(judges_tones);
    const auto first = side_of(before, comparison.time_alone);
    const auto second = side_of(after, comparison.time_alone);
    for (const auto& [where, then] : second.places) {
        const auto now = first.places.find(where);
        if (now == first.places.end()) continue;
        comparison.places.push_back({where.first, where.second, then.section, then.from, then.to,
                                     now->second.figures, then.figures});
    }
    const auto both = static_cast<int>(comparison.places.size());
    comparison.only_before = static_cast<int>(first.places.size()) - both;
    comparison.only_after = static_cast<int>(second.places.size()) - both;
    comparison.right_before = first.right;
    comparison.right_after = second.right;
    return comparison;
}

}  // namespace compline::practice
