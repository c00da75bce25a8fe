#include "time_through.hpp"

#include "keyed_chance.hpp"

#include <algorithm>

namespace compline::band {

bool TimeThrough::is_last() const {
    const auto times = setup.route.times_through();
    return times && number == *times;
}

Manner TimeThrough::manner(int bar) const {
    return manner_of(chart::asked_manner(form, setup.route, number, bar, setup.manner), tempo);
}

bool TimeThrough::ends_section(int bar) const {
    return bar == passage().to || form.bar(bar + 1).bar_in_section == 1;
}

bool TimeThrough::stops_after(int bar) const {
    return bar == passage().to && is_last() && !setup.route.held_ending;
}

bool TimeThrough::bass_and_guitar_rest(std::int64_t bar_played) const {
    return !keeps_bass(setup, number) && lays_out(setup, number, bar_played);
}

std::vector<chart::Slot> TimeThrough::slots(int bar) const {
    std::vector<chart::Slot> slots;
    const auto first =
        std::lower_bound(form.spans.begin(), form.spans.end(), bar,
                         [](const chart::Span& span, int wanted) { return span.bar < wanted; });
    for (auto span = first; span != form.spans.end() && span->bar == bar; ++span) {
        slots.push_back({span->start - form.bar(bar).start, span->length, span->chord});
    }
    return slots;
}

std::uint64_t TimeThrough::key(Matter matter, int bar) const {
    // From 0, as ever: another count would be other parts for the same seed.
    const auto before = static_cast<std::uint64_t>(number - 1);
    const auto place = before << 32U | static_cast<std::uint64_t>(bar);
    return mixed(mixed(setup.seed ^ mixed(static_cast<std::uint64_t>(matter))) ^ place);
}

}  // namespace compline::band
