#include <compline/chart/route.hpp>

#include <algorithm>
#include <cassert>

namespace compline::chart {

Route Route::of(Passage passage, std::optional<int> times) {
    assert(times.value_or(1) >= 1);
    Route route;
    route.stretches.assign(static_cast<std::size_t>(times.value_or(1)), Stretch{passage, "", {}});
    route.goes_on = !times;
    return route;
}

Route Route::through(const Form& form, Passage passage, std::optional<int> times) {
    Route route = of(passage, times);
    route.held_ending = times && passage == form.whole();
    return route;
}

Route Route::first(int times) const {
    assert(times >= 1);
    Route route;
    for (int time_through = 1; time_through <= times; ++time_through) {
        if (!goes_on && time_through > static_cast<int>(stretches.size())) break;
        route.stretches.push_back(stretch(time_through));
    }
    route.held_ending = held_ending && !goes_on && route.stretches.size() == stretches.size();
    return route;
}

std::optional<int> Route::times_through() const {
    if (goes_on) return std::nullopt;
    return static_cast<int>(stretches.size());
}

const Stretch& Route::stretch(int time_through) const {
    assert(time_through >= 1 && !stretches.empty());
    return stretches[std::min(static_cast<std::size_t>(time_through), stretches.size()) - 1];
}

std::int64_t Route::bars_before(int time_through) const {
    assert(time_through >= 1);
    const std::int64_t before = std::int64_t{time_through} - 1;
    std::int64_t bars = 0;
    const auto listed = std::min(static_cast<std::size_t>(before), stretches.size());
    for (std::size_t i = 0; i < listed; ++i) bars += stretches[i].passage.bars();
    const auto more = before - static_cast<std::int64_t>(listed);
    return bars + more * stretches.back().passage.bars();
}

Route::PlaceInRoute Route::place(time::Ticks position, time::Meter meter) const {
    if (position < time::Ticks(0)) return {1, stretches[0].passage.from, 0, {}, true, false};
    const std::int64_t bars = position / meter.bar();
    std::int64_t before = 0;
    for (int time_through = 1;; ++time_through) {
        const bool last = static_cast<std::size_t>(time_through) >= stretches.size();
        const Passage passage = stretch(time_through).passage;
        if (last && goes_on) {
            const std::int64_t more = (bars - before) / passage.bars();
            const auto in = static_cast<int>((bars - before) % passage.bars());
            return {time_through + static_cast<int>(more), passage.from + in, bars,
                    position % meter.bar()};
        }
        if (bars < before + passage.bars()) {
            const auto in = static_cast<int>(bars - before);
            return {time_through, passage.from + in, bars, position % meter.bar()};
        }
        before += passage.bars();
        if (last) return {time_through, passage.to, before - 1, {}, false, true};
    }
}

bool Route::is_uniform() const {
    return std::all_of(stretches.begin(), stretches.end(), [&](const Stretch& s) {
        return s == Stretch{stretches[0].passage, "", {}};
    });
}

Passage Route::reach() const {
    if (stretches.empty()) return {0, 0};
    Passage reach = stretches[0].passage;
    for (const auto& stretch : stretches) {
        reach.from = std::min(reach.from, stretch.passage.from);
        reach.to = std::max(reach.to, stretch.passage.to);
    }
    return reach;
}

bool Route::is_seam(int time_through, const Form& form) const {
    assert(time_through >= 2);
    const int before = stretch(time_through - 1).passage.to;
    const int here = stretch(time_through).passage.from;
    const bool comes_again = before == static_cast<int>(form.bars.size()) && here == 1;
    return before + 1 != here && !comes_again;
}

std::vector<time::Ticks> Route::kicks(const Form& form) const {
    assert(!goes_on);
    std::vector<time::Ticks> kicks;
    time::Ticks line;
    for (const auto& stretch : stretches) {
        for (int bar = stretch.passage.from; bar <= stretch.passage.to; ++bar) {
            for (const auto in_bar : form.bar(bar).kicks) kicks.push_back(line + in_bar);
            line += form.chart.meter.bar();
        }
    }
    return kicks;
}

AskedManner asked_manner(const Form& form, const Route& route, int time_through, int bar,
                         const AskedManner& player) {
    return form.bar(bar).manner.with(route.stretch(time_through).manner).with(player);
}

time::Groove groove_of(const Form& form, const Route& route, const AskedManner& player,
                       time::Bpm tempo) {
    const AskedManner whole = form.chart.manner.with(player);
    time::Groove groove{time::Timeline(tempo), form.chart.swing_of(whole, tempo), {}};
    const auto meter = form.chart.meter;
    const int times = static_cast<int>(route.stretches.size());
    time::Ticks at;
    for (int time_through = 1; time_through <= times; ++time_through) {
        const auto passage = route.stretch(time_through).passage;
        for (int bar = passage.from; bar <= passage.to; ++bar, at += meter.bar()) {
            const auto asked = asked_manner(form, route, time_through, bar, player);
            groove.changes.add(at, form.chart.swing_of(asked, tempo));
        }
    }
    if (route.goes_on) {
        const auto last = route.start(times, meter);
        groove.changes.repeat(last, route.start(times + 1, meter) - last);
    }
    return groove;
}

}  // namespace compline::chart
