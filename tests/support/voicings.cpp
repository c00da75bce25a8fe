#include "support/voicings.hpp"

#include "support/comper.hpp"

#include <compline/roadmap/road_map.hpp>

namespace compline::tests {

namespace {

guitar::Grip grip_of(const std::string& frets, const std::string& fingers) {
    guitar::Grip grip{shape(frets), {}};
    for (std::size_t i = 0; i < fingers.size(); ++i) {
        const char finger = fingers[fingers.size() - 1 - i];
        if (finger >= '1' && finger <= '4') {
            grip.fingers.at(i) = static_cast<guitar::Finger>(finger - '0');
        }
    }
    return grip;
}

}  // namespace

guitar::VoicingPlan plan_by_hand(const chart::Form& form, const Grips& grips) {
    constexpr int middle_of_the_neck = 5;
    guitar::VoicingPlan plan;
    plan.passage = form.whole();
    plan.tempo = form.chart.tempo;
    for (const auto& change :
         roadmap::RoadMap(form, roadmap::Asked::of(form.whole(), 1)).changes()) {
        const auto named = grips.find(change.to.symbol(harmony::Accidentals::letters));
        const auto grip =
            named != grips.end()
                ? grip_of(named->second.first, named->second.second)
                : guitar::Grip{guitar::shell(plan.fretboard, change.to, middle_of_the_neck), {}};
        plan.voicings.push_back(
            {change, {change.to, change.around, harmony::Strictness::working}, grip});
    }
    for (std::size_t i = 0; i < plan.voicings.size(); ++i) {
        const auto& before = plan.voicings[i == 0 ? plan.voicings.size() - 1 : i - 1];
        plan.moves.push_back(
            guitar::move_between(plan.fretboard, before.grip, plan.voicings[i].grip));
    }
    return plan;
}

}  // namespace compline::tests
