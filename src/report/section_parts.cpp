#include "section_parts.hpp"

#include <algorithm>
#include <utility>

namespace compline::report {

namespace {

/// The first voicing that begins in a bar or behind it.
std::size_t voicing_from(const guitar::VoicingPlan& plan, int bar) {
    const auto found = std::find_if(plan.voicings.begin(), plan.voicings.end(),
                                    [bar](const auto& v) { return v.change.bar >= bar; });
    return static_cast<std::size_t>(found - plan.voicings.begin());
}

bool same_move(const guitar::Move& a, const guitar::Move& b) {
    return a.fingers == b.fingers && a.top == b.top;
}

bool same_change(const guitar::PlannedVoicing& a, const guitar::PlannedVoicing& b, int bars_on) {
    return a.change.bar + bars_on == b.change.bar && a.change.beat == b.change.beat &&
           a.change.to == b.change.to && a.goes_on == b.goes_on;
}

bool same_voicing(const guitar::PlannedVoicing& a, const guitar::PlannedVoicing& b, int bars_on) {
    return same_change(a, b, bars_on) && a.grip == b.grip;
}

/// What sounds as a bar begins; a chord may go on there.
std::optional<guitar::Grip> grip_at(const chart::Form& form, const guitar::VoicingPlan& plan,
                                    int bar) {
    const auto* voicing = plan.at(form.bar(bar).start);
    if (voicing == nullptr) return std::nullopt;
    return voicing->grip;
}

bool same_part(const guitar::VoicingPlan& plan, const SectionPart& a, const SectionPart& b) {
    const auto at = [&](std::size_t i) {
        return plan.voicings.begin() + static_cast<std::ptrdiff_t>(i);
    };
    return a.section == b.section && a.bars.bars() == b.bars.bars() &&
           std::equal(at(a.first), at(a.end), at(b.first), at(b.end), [&](auto& x, auto& y) {
               return same_voicing(x, y, b.bars.from - a.bars.from);
           });
}

/// The voicings of `part` that are not held or not reached as those of an earlier part; nothing
/// where the two have not the same chords.
std::optional<std::vector<std::size_t>> differences(const guitar::VoicingPlan& plan,
                                                    const SectionPart& earlier,
                                                    const SectionPart& part) {
    const bool comparable = earlier.section == part.section &&
                            earlier.bars.bars() == part.bars.bars() &&
                            earlier.end - earlier.first == part.end - part.first;
    if (!comparable) return std::nullopt;
    std::vector<std::size_t> differing;
    for (std::size_t i = 0; i < part.end - part.first; ++i) {
        const auto& before = plan.voicings[earlier.first + i];
        const auto& now = plan.voicings[part.first + i];
        if (!same_change(before, now, part.bars.from - earlier.bars.from)) return std::nullopt;
        const bool same = before.grip == now.grip &&
                          same_move(plan.moves[earlier.first + i], plan.moves[part.first + i]);
        if (!same) differing.push_back(part.first + i);
    }
    return differing;
}

/// Finds what a part is like, where it is not the same as another.
void liken(const guitar::VoicingPlan& plan, std::vector<SectionPart>& parts, std::size_t index) {
    auto& part = parts[index];
    for (std::size_t earlier = 0; earlier < index && !part.like; ++earlier) {
        if (parts[earlier].as || parts[earlier].like) continue;
        auto differing = differences(plan, parts[earlier], part);
        if (!differing || 2 * differing->size() > part.end - part.first) continue;
        part.like = earlier;
        part.differing = std::move(*differing);
    }
}

/// The voicings that begin in a passage, but the one that begins with it.
std::pair<std::size_t, std::size_t> behind_first_beat(const chart::Form& form,
                                                      const guitar::VoicingPlan& plan,
                                                      chart::Passage bars) {
    auto first = voicing_from(plan, bars.from);
    const auto end = voicing_from(plan, bars.to + 1);
    if (first < end && plan.voicings[first].change.in_form == form.bar(bars.from).start) ++first;
    return {first, end};
}

}  // namespace

bool is_drawn_once(const chart::Form& form, const guitar::VoicingPlan& plan, chart::Passage earlier,
                   chart::Passage again) {
    if (grip_at(form, plan, earlier.from) != grip_at(form, plan, again.from)) return false;
    const auto before = behind_first_beat(form, plan, earlier);
    const auto now = behind_first_beat(form, plan, again);
    // A grip that is only held on the first time has no diagram to come back to.
    const bool held = before.first == voicing_from(plan, earlier.from);
    if (held && now.first != voicing_from(plan, again.from)) return false;
    const auto at = [&](std::size_t i) {
        return plan.voicings.begin() + static_cast<std::ptrdiff_t>(i);
    };
    return std::equal(at(before.first), at(before.second), at(now.first), at(now.second),
                      [&](const auto& a, const auto& b) {
                          return same_voicing(a, b, again.from - earlier.from);
                      });
}

std::vector<SectionPart> parts_of(const chart::Form& form, const guitar::VoicingPlan& plan) {
    std::vector<SectionPart> parts;
    for (int number = plan.passage.from; number <= plan.passage.to; ++number) {
        const auto& bar = form.bar(number);
        if (parts.empty() || bar.bar_in_section == 1) {
            parts.emplace_back();
            parts.back().section = bar.section;
            parts.back().bars = {number, number};
        }
        parts.back().bars.to = number;
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
        auto& part = parts[i];
        part.first = voicing_from(plan, part.bars.from);
        part.end = voicing_from(plan, part.bars.to + 1);
        for (std::size_t earlier = 0; earlier < i && !part.as; ++earlier) {
            // A part of a section is not the section: both begin with its first bar.
            const bool whole = form.bar(parts[earlier].bars.from).bar_in_section == 1;
            if (!whole || parts[earlier].as || !same_part(plan, parts[earlier], part)) continue;
            if (grip_at(form, plan, parts[earlier].bars.from) !=
                grip_at(form, plan, part.bars.from)) {
                continue;
            }
            part.as = earlier;
            part.same_way_in = part.first == part.end ||
                               same_move(plan.moves[part.first], plan.moves[parts[earlier].first]);
        }
        if (!part.as) liken(plan, parts, i);
    }
    return parts;
}

}  // namespace compline::report
