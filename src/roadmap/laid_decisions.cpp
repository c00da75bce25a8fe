#include "laid.hpp"

#include <algorithm>
#include <utility>
#include <variant>

namespace compline::roadmap {

using time::Ticks;

/// What each decision does to what is laid out.
struct RoadMap::Laid::Decide {
    Laid& laid;
    std::int64_t bar;

    void operator()(const NewTempo& tempo) const {
        auto& all = laid.asked_tempi;
        if (all.back().from_bar == bar) all.pop_back();
        all.push_back({bar, tempo.tempo});
    }
    void operator()(const LaysOut& who) const { laid.lay_out(bar, who); }
    void operator()(const NewWay& then) const {
        laid.end_before(bar);
        laid.go_on_with(then.way);
    }
    void operator()(const Paused&) const {
        laid.end_before(bar);
        laid.way.held_ending = false;
    }
    void operator()(const Waited& waited) const {
        Wait wait{bar, static_cast<int>(laid.way.stretches.size()), laid.starts.back(), {}};
        wait.written.number = 0;
        wait.written.bar_in_section = 0;
        wait.written.meter = time::Meter(time::quarter_note, {waited.beats});
        laid.first_bars.back() += 1;
        laid.starts.back() += wait.written.meter.bar();
        laid.waits.push_back(std::move(wait));
        laid.go_on_with(waited.way);
    }
    /// Where it would have ended anyway it ends as it would have.
    void operator()(const Stopped&) const {
        const bool ends_anyway = laid.bars() == bar - 1;
        laid.end_before(bar);
        laid.way.held_ending = laid.way.held_ending && ends_anyway;
    }
    void operator()(const LadderStep&) const {}
};

void RoadMap::Laid::decide(const Decision& decision) {
    std::visit(Decide{*this, decision.from_bar}, decision.what);
}

/// Behind all that is listed.
void RoadMap::Laid::go_on_with(const chart::Way& then) {
    const auto& more = then.stretches;
    const int from = static_cast<int>(way.stretches.size()) + 1;
    ways.push_back({from, std::any_of(more.begin(), more.end(),
                                      [](const chart::Stretch& s) { return s.name == "head"; })});
    for (const auto& stretch : more) {
        way.stretches.push_back(stretch);
        first_bars.push_back(first_bars.back() + stretch.passage.bars());
        starts.push_back(starts.back() + form.length(stretch.passage));
    }
    way.goes_on = then.goes_on;
    way.held_ending = then.held_ending;
}

/// A time through of which nothing is left is none.
void RoadMap::Laid::end_before(std::int64_t bar) {
    const Ticks end = start_of_bar(bar);
    list_times_through(bar > 1 ? time_through_of(bar - 1) : 0);
    way.goes_on = false;
    if (bar > 1) {
        auto& passage = way.stretches.back().passage;
        const auto played = static_cast<int>(bar - first_bars.back());
        passage.to = std::min(passage.to, passage.from + played - 1);
    }
    first_bars.push_back(bar);
    starts.push_back(end);
}

/// So many, without what follows them.
void RoadMap::Laid::list_times_through(int count) {
    const auto wanted = static_cast<std::size_t>(count);
    while (way.stretches.size() < wanted) {
        way.stretches.push_back(way.stretches.back());
        const auto& passage = way.stretches.back().passage;
        first_bars.push_back(first_bars.back() + passage.bars());
        starts.push_back(starts.back() + form.length(passage));
    }
    way.stretches.resize(wanted);
    first_bars.resize(wanted);
    starts.resize(wanted);
}

void RoadMap::Laid::lay_out(std::int64_t from_bar, const LaysOut& who) {
    const auto now = laid_out.empty() ? WhoPlays{} : laid_out.back().who;
    laid_out.push_back({from_bar, who.out ? now.with(who.who) : now.without(who.who)});
}

}  // namespace compline::roadmap
