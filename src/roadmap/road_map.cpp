#include "laid.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace compline::roadmap {

using time::Beats;
using time::Seconds;
using time::Ticks;

RoadMap::RoadMap(chart::Form form, Asked asked, std::vector<Decision> decided)
    : laid_(std::make_shared<const Laid>(std::move(form), std::move(asked), std::move(decided))) {}

RoadMap RoadMap::with(const Decision& decision) const {
    auto decided = laid_->decided;
    decided.push_back(decision);
    return {laid_->form, laid_->asked, std::move(decided)};
}

RoadMap RoadMap::known_at(std::int64_t bar) const {
    auto decided = laid_->decided;
    while (!decided.empty() && decided.back().from_bar > bar) decided.pop_back();
    if (decided.size() == laid_->decided.size()) return *this;
    return {laid_->form, laid_->asked, std::move(decided)};
}

RoadMap RoadMap::first(int times_through) const {
    assert(times_through >= 1);
    const auto all = this->times_through();
    if (all && times_through >= *all) return *this;
    // A wait behind the last of them is no part of it.
    const Decision stop{first_bar(times_through) + way().stretch(times_through).passage.bars(),
                        Stopped{}};
    auto decided = laid_->decided;
    while (!decided.empty() && decided.back().from_bar >= stop.from_bar) decided.pop_back();
    decided.push_back(stop);
    return {laid_->form, laid_->asked, std::move(decided)};
}

const chart::Form& RoadMap::form() const& { return laid_->form; }
const Asked& RoadMap::asked() const& { return laid_->asked; }

Asked RoadMap::settled() const {
    auto asked = laid_->asked;
    if (!asked.tempo) asked.tempo = tempo();
    asked.count_in_bars = count_in_bars();
    return asked;
}

const std::vector<Decision>& RoadMap::decided() const& { return laid_->decided; }
const chart::Way& RoadMap::way() const& { return laid_->way; }
const time::TempoMap& RoadMap::tempi() const& { return laid_->tempi; }
time::Swing RoadMap::swing(time::Bpm tempo) const { return laid_->tune_swing(tempo); }
std::optional<std::int64_t> RoadMap::bars() const { return laid_->bars(); }

std::int64_t RoadMap::first_bar(int time_through) const {
    assert(time_through >= 1);
    return laid_->first_bar(time_through);
}

Ticks RoadMap::start(int time_through) const {
    assert(time_through >= 1);
    return laid_->start(time_through);
}

Ticks RoadMap::end() const {
    assert(!goes_on());
    return laid_->starts.back();
}

PlayedBar RoadMap::bar(std::int64_t number) const {
    assert(number >= 1 && number <= bars().value_or(number));
    return laid_->bar(laid_->time_through_of(number), number);
}

PlayedBar RoadMap::bar_at(Ticks position) const { return bar(place_at(position).number); }

PlayedPlace RoadMap::place_at(Ticks position) const {
    const auto& way = laid_->way;
    if (position < Ticks(0)) return {1, way.stretches.front().passage.from, 1, {}, true, false};
    if (!way.goes_on && position >= laid_->starts.back()) {
        const auto last = bar(*bars());
        return {last.time_through, last.in_form(), last.number, {}, false, true};
    }
    if (const auto* const wait = laid_->wait_around(position)) {
        return {wait->time_through, 0, wait->number, position - wait->start};
    }
    const int time_through = laid_->time_through_at(position);
    const auto& passage = way.stretch(time_through).passage;
    const auto& bars = laid_->form.bars;
    const Ticks in_form =
        position - laid_->start(time_through) + laid_->form.bar(passage.from).start;
    const auto after = std::upper_bound(bars.begin(), bars.end(), in_form,
                                        [](Ticks at, const auto& bar) { return at < bar.start; });
    const auto& bar = *std::prev(after);
    return {time_through, bar.number, laid_->first_bar(time_through) + bar.number - passage.from,
            in_form - bar.start};
}

PlayedPlace RoadMap::place_at(Seconds t) const { return place_at(position_at(t)); }

Ticks RoadMap::position_at(Seconds t) const {
    const double beats = laid_->tempi.beat_at(t).count();
    return Ticks(static_cast<std::int64_t>(
        std::floor(beats * static_cast<double>(time::quarter_note.count()))));
}

Seconds RoadMap::time_of(Ticks written) const { return laid_->tempi.time_of(played(written)); }

Beats RoadMap::written_at(Seconds t) const {
    // Swing changes at bar lines, where played and written agree.
    return laid_->swings.written(laid_->tempi.beat_at(t), position_at(t), laid_->swing);
}

time::Swing RoadMap::swing_at(Ticks written) const {
    return laid_->swings.at(written, laid_->swing);
}

Beats RoadMap::played(Ticks written) const { return laid_->swings.played(written, laid_->swing); }

time::Bpm RoadMap::tempo() const { return laid_->asked_tempi.front().tempo; }

int RoadMap::count_in_bars() const {
    return laid_->asked.count_in_bars.value_or(usual_count_in(tempo()));
}

std::vector<Ticks> RoadMap::kicks() const {
    assert(!goes_on());
    std::vector<Ticks> kicks;
    for (std::int64_t number = 1; number <= bars().value(); ++number) {
        const auto here = bar(number);
        for (const auto in_bar : here.written->kicks) kicks.push_back(here.start + in_bar);
    }
    return kicks;
}

}  // namespace compline::roadmap
