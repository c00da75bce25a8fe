#include <compline/chart/way.hpp>

#include <algorithm>
#include <cassert>

namespace compline::chart {

Way Way::of(Passage passage, std::optional<int> times) {
    assert(times.value_or(1) >= 1);
    Way way;
    way.stretches.assign(static_cast<std::size_t>(times.value_or(1)), Stretch{passage, "", {}});
    way.goes_on = !times;
    return way;
}

Way Way::through(const Form& form, Passage passage, std::optional<int> times) {
    Way way = of(passage, times);
    way.held_ending = times && passage == form.whole();
    return way;
}

Way Way::first(int times) const {
    assert(times >= 1);
    Way way;
    for (int time_through = 1; time_through <= times; ++time_through) {
        if (!goes_on && time_through > static_cast<int>(stretches.size())) break;
        way.stretches.push_back(stretch(time_through));
    }
    way.held_ending = held_ending && !goes_on && way.stretches.size() == stretches.size();
    return way;
}

std::optional<int> Way::times_through() const {
    if (goes_on) return std::nullopt;
    return static_cast<int>(stretches.size());
}

const Stretch& Way::stretch(int time_through) const {
    assert(time_through >= 1 && !stretches.empty());
    return stretches[std::min(static_cast<std::size_t>(time_through), stretches.size()) - 1];
}

std::int64_t Way::bars_before(int time_through) const {
    assert(time_through >= 1);
    const std::int64_t before = std::int64_t{time_through} - 1;
    std::int64_t bars = 0;
    const auto listed = std::min(static_cast<std::size_t>(before), stretches.size());
    for (std::size_t i = 0; i < listed; ++i) bars += stretches[i].passage.bars();
    const auto more = before - static_cast<std::int64_t>(listed);
    return bars + more * stretches.back().passage.bars();
}

bool Way::is_uniform() const {
    return std::all_of(stretches.begin(), stretches.end(), [&](const Stretch& s) {
        return s == Stretch{stretches[0].passage, "", {}};
    });
}

Passage Way::reach() const {
    if (stretches.empty()) return {0, 0};
    Passage reach = stretches[0].passage;
    for (const auto& stretch : stretches) {
        reach.from = std::min(reach.from, stretch.passage.from);
        reach.to = std::max(reach.to, stretch.passage.to);
    }
    return reach;
}

UntilCue until_cue(const Way& way) {
    const auto& all = way.stretches;
    const auto waits = std::find_if(all.begin(), all.end(), [](auto& s) { return s.until_cue; });
    if (waits == all.end()) return {way, std::nullopt};
    Way now{{all.begin(), waits + 1}, true, false};
    now.stretches.back().rit = 0;
    auto follows = std::find_if(waits, all.end(), [&](Stretch s) {
        s.rit = 0;
        return s != now.stretches.back();
    });
    // The last time slows down, if any does.
    if (std::prev(follows)->rit > 0 || follows == all.end()) --follows;
    Way then{{follows, all.end()}, way.goes_on, way.held_ending};
    if (then.stretches.front() == now.stretches.back() || then.stretches.front().rit > 0) {
        then.stretches.front().until_cue = false;
    }
    return {now, then};
}

}  // namespace compline::chart
