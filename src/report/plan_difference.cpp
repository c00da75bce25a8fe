#include "plan_difference.hpp"

#include "voicing_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace compline::report {

namespace {

using guitar::PlannedVoicing;
using guitar::VoicingPlan;

std::set<time::Ticks> starts_of(const VoicingPlan& a, const VoicingPlan& b) {
    std::set<time::Ticks> starts;
    for (const auto* plan : {&a, &b}) {
        for (const auto& voicing : plan->voicings) starts.insert(voicing.change.in_form);
    }
    return starts;
}

PlanDifference difference(const PlannedVoicing& best, const PlannedVoicing& other) {
    const auto& later = best.change.in_form < other.change.in_form ? other.change : best.change;
    PlanDifference difference{
        {place_words(later)}, later.to.symbol(), best.grip.shape.text(), other.grip.shape.text()};
    if (best.grip.shape == other.grip.shape) {
        difference.before += ", fingers " + best.grip.finger_text();
        difference.after = "fingers " + other.grip.finger_text();
    }
    return difference;
}

}  // namespace

std::vector<PlanDifference> differences_of(const VoicingPlan& best, const VoicingPlan& other) {
    std::vector<PlanDifference> all;
    for (const auto start : starts_of(best, other)) {
        const auto* here = best.at(start);
        const auto* there = other.at(start);
        if (here == nullptr || there == nullptr || here->grip == there->grip) continue;
        const auto one = difference(*here, *there);
        const auto same = std::find_if(all.begin(), all.end(), [&](const PlanDifference& said) {
            return said.symbol == one.symbol && said.before == one.before &&
                   said.after == one.after;
        });
        if (same == all.end()) {
            all.push_back(one);
        } else {
            same->places.push_back(one.places.front());
        }
    }
    return all;
}

}  // namespace compline::report
