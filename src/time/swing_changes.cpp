#include <compline/time/swing_changes.hpp>

#include <algorithm>
#include <cassert>

namespace compline::time {

namespace {

double quarters(Ticks ticks) { return Beats(ticks).count(); }

}  // namespace

void SwingChanges::add(Ticks from, const Swing& swing, Ticks unit) {
    assert(unit > Ticks(0));
    assert(changes_.empty() || changes_.back().from < from);
    if (!changes_.empty()) {
        const auto& before = changes_.back();
        const bool same = before.swing == swing && before.unit == unit;
        if (same && (from - before.from) % unit == Ticks(0)) return;  // no change
    }
    changes_.push_back({from, swing, unit});
}

void SwingChanges::repeat(Ticks from, Ticks length) {
    assert(length > Ticks(0));
    loop_from_ = from;
    loop_length_ = length;
}

SwingChanges::Holding SwingChanges::holding(Ticks written, const Swing& otherwise) const {
    Ticks shift;
    if (loop_length_ > Ticks(0) && written >= loop_from_) {
        shift = loop_length_ * ((written - loop_from_) / loop_length_);
    }
    const auto after = std::upper_bound(changes_.begin(), changes_.end(), written - shift,
                                        [](Ticks at, const SwingChange& c) { return at < c.from; });
    if (after == changes_.begin()) return {otherwise, quarter_note, Ticks(0)};
    const auto& change = *std::prev(after);
    // Of what was added before the loop began the units go on into it.
    return {change.swing, change.unit, change.from + shift};
}

Swing SwingChanges::at(Ticks written, const Swing& otherwise) const {
    return holding(written, otherwise).swing;
}

Beats SwingChanges::played(Ticks written, const Swing& otherwise) const {
    const auto here = holding(written, otherwise);
    if (here.is_plain()) return here.swing.played(written);
    const Ticks unit = here.unit_of(written);
    const Beats part(quarters(written - unit) / quarters(here.unit));
    return Beats(quarters(unit) + here.swing.played(part).count() * quarters(here.unit));
}

Beats SwingChanges::written(Beats played, Ticks beat, const Swing& otherwise) const {
    const auto here = holding(beat, otherwise);
    if (here.is_plain()) return here.swing.written(played);
    const Ticks unit = here.unit_of(beat);
    const Beats part((played.count() - quarters(unit)) / quarters(here.unit));
    return Beats(quarters(unit) + here.swing.written(part).count() * quarters(here.unit));
}

}  // namespace compline::time
