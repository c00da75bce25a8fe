#include "guide_line.hpp"

#include <compline/guitar/voicing_plan.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>

namespace compline::guitar {

namespace {

constexpr std::array<std::string_view, 6> style_names = {"mixed",      "shells",    "guide-tones",
                                                         "one-colour", "four-note", "rootless"};

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

std::vector<int> usual_strings(VoicingStyle style, int strings_of_guitar) {
    constexpr int usual = 6;
    std::vector<int> strings;
    const bool guides = style == VoicingStyle::guide_tones;
    const bool shells = style == VoicingStyle::shells;
    int low = guides ? 4 : shells ? 6 : 5;
    int high = guides || shells ? 3 : 2;
    if (strings_of_guitar < usual) {
        low = strings_of_guitar;
        high = 1;
    }
    for (int string = low; string >= high; --string) strings.push_back(string);
    return strings;
}

VoicingWishes guide_wishes(const VoicingWishes& wishes) {
    VoicingWishes guides = wishes;
    if (!guide_strings(wishes.strings)) guides.strings.clear();
    guides.style = VoicingStyle::guide_tones;
    guides.position.reset();
    guides.long_chords_move = false;
    return guides;
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
