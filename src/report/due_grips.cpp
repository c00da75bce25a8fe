#include "due_grips.hpp"

#include "shown_place.hpp"

#include <cassert>

namespace compline::report {

namespace {

using time::eighth_note;
using time::Ticks;

/// The display of voicings moves on so much ahead of the chord: as far as a push.
constexpr Ticks ahead = eighth_note;

bool are_alike(const DueGrip& a, const DueGrip& b) {
    return a.voicing != nullptr && b.voicing != nullptr && a.voicing->grip == b.voicing->grip &&
           a.voicing->change.to == b.voicing->change.to;
}

/// The first voicing that begins in a passage after a position of the form.
DueGrip first_after(const guitar::VoicingPlan& plan, chart::Passage passage, Ticks after) {
    for (const auto& voicing : plan.voicings) {
        const auto& change = voicing.change;
        if (change.in_form > after && change.bar <= passage.to) return {&voicing, change.bar};
    }
    return {};
}

/// The voicing that a time through a passage begins with.
DueGrip first_of(const guitar::VoicingPlan& plan, const chart::Form& form, chart::Passage passage) {
    const Ticks start = form.bar(passage.from).start;
    if (const auto* at_once = plan.at(start)) return {at_once, passage.from};
    return first_after(plan, passage, start);
}

}  // namespace

DueGrips due_grips(const ChartRows& rows, const Playing& playing, Ticks position) {
    assert(playing.voicings != nullptr);
    const auto& way = playing.map.way();
    const auto& form = playing.map.form();
    const auto& plan = *playing.voicings;
    const auto place = shown_place(rows, playing, position + ahead);
    if (place.over && playing.decided.paused) {
        return {{}, first_of(plan, form, {place.bar, form.all().to})};
    }
    if (place.over) return {};
    const auto& here = way.stretch(place.time_through).passage;
    DueGrips grips;
    if (place.before) {
        grips.next = first_of(plan, form, here);
        return grips;
    }
    const Ticks in_form = form.bar(place.bar).start + place.in_bar;
    grips.now = {plan.at(in_form), place.bar};
    grips.next = first_after(plan, here, in_form);
    const auto times = way.times_through();
    const int last = times.value_or(place.time_through + static_cast<int>(way.stretches.size()));
    for (int later = place.time_through + 1; later <= last; ++later) {
        if (grips.next.voicing != nullptr) break;
        const auto& there = way.stretch(later).passage;
        grips.next = first_of(plan, form, there);
        // A chord that goes on over the seam is no other grip.
        if (!are_alike(grips.next, grips.now)) continue;
        grips.next = first_after(plan, there, grips.next.voicing->change.in_form);
    }
    return grips;
}

}  // namespace compline::report
