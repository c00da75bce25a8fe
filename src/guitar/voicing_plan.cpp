#include <compline/guitar/voicing_plan.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>

namespace compline::guitar {

namespace {

constexpr std::array<std::string_view, 4> style_names = {"mixed", "shells", "four-note",
                                                         "rootless"};

}  // namespace

std::string_view name_of(VoicingStyle style) {
    return style_names[static_cast<std::size_t>(style)];
}

std::optional<VoicingStyle> find_voicing_style(std::string_view name) {
    for (std::size_t i = 0; i < style_names.size(); ++i) {
        if (style_names[i] == name) return static_cast<VoicingStyle>(i);
    }
    return std::nullopt;
}

Cost VoicingPlan::cost() const {
    Cost sum = 0;
    for (const auto& voicing : voicings) sum += voicing.sound + voicing.reach;
    return sum;
}

const PlannedVoicing* VoicingPlan::at(time::Ticks in_form) const {
    for (const auto& voicing : voicings) {
        const auto& change = voicing.change;
        if (change.in_form <= in_form && in_form < change.in_form + change.length) return &voicing;
    }
    return nullptr;
}

PlanTotals totals_of(const VoicingPlan& plan) {
    PlanTotals totals;
    int voices = 0;
    for (std::size_t i = 0; i < plan.moves.size(); ++i) {
        const auto& move = plan.moves[i];
        ++totals.changes;
        totals.guided += move.is_guided() ? 1 : 0;
        totals.travel += move.travel();
        totals.semitones += move.semitones();
        voices += static_cast<int>(move.voices.size());
        if (std::abs(move.hand) > totals.widest_jump) {
            totals.widest_jump = std::abs(move.hand);
            totals.widest_at = &plan.voicings[i];
        }
    }
    if (voices > 0) totals.semitones /= voices;
    return totals;
}

}  // namespace compline::guitar
