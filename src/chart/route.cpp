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

std::optional<int> Route::times_through() const {
    if (goes_on) return std::nullopt;
    return static_cast<int>(stretches.size());
}

const Stretch& Route::stretch(int time) const {
    assert(time >= 0 && !stretches.empty());
    return stretches[std::min(static_cast<std::size_t>(time), stretches.size() - 1)];
}

std::int64_t Route::bars_before(int time) const {
    assert(time >= 0);
    std::int64_t bars = 0;
    const auto listed = std::min(static_cast<std::size_t>(time), stretches.size());
    for (std::size_t i = 0; i < listed; ++i) bars += stretches[i].passage.bars();
    const auto more = static_cast<std::int64_t>(time) - static_cast<std::int64_t>(listed);
    return bars + more * stretches.back().passage.bars();
}

Route::Place Route::place(time::Ticks position, time::Meter meter) const {
    if (position < time::Ticks(0)) return {0, stretches[0].passage.from, 0, {}, true, false};
    const std::int64_t bars = position / meter.bar();
    std::int64_t before = 0;
    for (int time = 0;; ++time) {
        const bool last = static_cast<std::size_t>(time) + 1 >= stretches.size();
        const Passage passage = stretch(time).passage;
        if (last && goes_on) {
            const std::int64_t more = (bars - before) / passage.bars();
            const auto in = static_cast<int>((bars - before) % passage.bars());
            return {time + static_cast<int>(more), passage.from + in, bars, position % meter.bar()};
        }
        if (bars < before + passage.bars()) {
            const auto in = static_cast<int>(bars - before);
            return {time, passage.from + in, bars, position % meter.bar()};
        }
        before += passage.bars();
        if (last) return {time, passage.to, before - 1, {}, false, true};
    }
}

bool Route::is_uniform() const {
    return std::all_of(stretches.begin(), stretches.end(),
                       [&](const Stretch& s) { return s.passage == stretches[0].passage; });
}

}  // namespace compline::chart
