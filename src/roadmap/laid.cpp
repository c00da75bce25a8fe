#include "laid.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

namespace compline::roadmap {

using time::Beats;
using time::Ticks;

RoadMap::Laid::Laid(chart::Form played, Asked wishes, std::vector<Decision> since)
    : form(std::move(played)),
      asked(std::move(wishes)),
      decided(std::move(since)),
      tempi(asked.tempo.value_or(form.chart.tempo)) {
    refuse_impossible(form, asked, decided);
    way = asked.way;
    has_heads = std::any_of(way.stretches.begin(), way.stretches.end(),
                            [](const chart::Stretch& s) { return s.name == "head"; });
    lay_way();
    if (asked.silence) refuse_lost_silence(*asked.silence, way);
    for (const auto& decision : decided) {
        if (std::holds_alternative<Stopped>(decision.what)) stop_before(decision.from_bar);
        if (std::holds_alternative<LeftAlone>(decision.what)) alone.push_back(decision);
    }
    lay_time();
    lay_swing();
}

/// Where each stretch begins.
void RoadMap::Laid::lay_way() {
    first_bars.assign(1, 1);
    starts.assign(1, Ticks(0));
    for (const auto& stretch : way.stretches) {
        first_bars.push_back(first_bars.back() + stretch.passage.bars());
        starts.push_back(starts.back() + form.length(stretch.passage));
    }
}

void RoadMap::Laid::stop_before(std::int64_t bar) {
    assert(bar > 1);
    const int last = time_through_of(bar - 1);
    const auto bars_of_last = static_cast<int>(bar - first_bar(last));
    way = way.first(last);
    auto& passage = way.stretches.back().passage;
    if (bars_of_last < passage.bars()) {
        passage.to = passage.from + bars_of_last - 1;
        way.held_ending = false;
    }
    lay_way();
}

void RoadMap::Laid::lay_time() {
    for (const auto& decision : decided) {
        const auto* const tempo = std::get_if<NewTempo>(&decision.what);
        if (tempo == nullptr) continue;
        const auto from = bar(time_through_of(decision.from_bar), decision.from_bar).start;
        tempi = tempi.with_tempo_from(Beats(from), tempo->tempo);
    }
}

/// Where the way goes on, what is listed reaches beyond the last decision, and from there on a time
/// through comes again and again.
void RoadMap::Laid::lay_swing() {
    swing = tune_swing(tempi.knots().front().tempo);
    const auto lay = [&](std::int64_t from, std::int64_t to) {
        for (auto number = from; number < to; ++number) {
            const int time_through = time_through_of(number);
            const auto here = bar(time_through, number);
            swings.add(here.start, swing_of(here.manner, here.tempo));
        }
    };
    if (!way.goes_on) {
        lay(1, first_bars.back());
        return;
    }
    const auto last_decided = decided.empty() ? 1 : decided.back().from_bar;
    const auto loop = std::max(*std::prev(first_bars.end(), 2), last_decided);
    const auto& passage = way.stretches.back().passage;
    lay(1, loop + passage.bars());
    swings.repeat(bar(time_through_of(loop), loop).start, form.length(passage));
}

std::int64_t RoadMap::Laid::first_bar(int time_through) const {
    const auto listed = static_cast<std::int64_t>(first_bars.size()) - 1;
    if (time_through - 1 <= listed) return first_bars[static_cast<std::size_t>(time_through - 1)];
    return first_bars.back() + (time_through - 1 - listed) * way.stretches.back().passage.bars();
}

Ticks RoadMap::Laid::start(int time_through) const {
    const auto listed = static_cast<std::int64_t>(starts.size()) - 1;
    if (time_through - 1 <= listed) return starts[static_cast<std::size_t>(time_through - 1)];
    return starts.back() + form.length(way.stretches.back().passage) * (time_through - 1 - listed);
}

int RoadMap::Laid::time_through_of(std::int64_t bar) const {
    if (bar >= first_bars.back()) {
        const auto more = (bar - first_bars.back()) / way.stretches.back().passage.bars();
        return static_cast<int>(static_cast<std::int64_t>(first_bars.size()) + more);
    }
    const auto after = std::upper_bound(first_bars.begin(), first_bars.end(), bar);
    return static_cast<int>(after - first_bars.begin());
}

int RoadMap::Laid::time_through_at(Ticks position) const {
    if (position >= starts.back()) {
        const auto more = (position - starts.back()) / form.length(way.stretches.back().passage);
        return static_cast<int>(static_cast<std::int64_t>(starts.size()) + more);
    }
    const auto after = std::upper_bound(starts.begin(), starts.end(), position);
    return static_cast<int>(after - starts.begin());
}

std::optional<std::int64_t> RoadMap::Laid::bars() const {
    if (way.goes_on) return std::nullopt;
    return first_bars.back() - 1;
}

PlayedBar RoadMap::Laid::bar(int time_through, std::int64_t number) const {
    const auto& passage = way.stretch(time_through).passage;
    const int in_form = passage.from + static_cast<int>(number - first_bar(time_through));
    PlayedBar bar;
    bar.number = number;
    bar.time_through = time_through;
    bar.written = &form.bar(in_form);
    bar.start = start(time_through) + bar.written->start - form.bar(passage.from).start;
    bar.tempo = tempi.tempo_at(Beats(bar.start));
    bar.swing = swings.at(bar.start, swing);
    bar.manner = manner(time_through, in_form);
    bar.chords = form.spans_in(in_form);
    bar.on = on(bar.manner, time_through);
    bar.left_out = left_out(time_through, number);
    bar.seam = in_form == passage.from && is_seam(time_through);
    return bar;
}

chart::AskedManner RoadMap::Laid::manner(int time_through, int bar) const {
    return form.bar(bar).manner.with(way.stretch(time_through).manner).with(asked.manner);
}

time::Swing RoadMap::Laid::swing_of(const chart::AskedManner& asked_for, time::Bpm tempo) const {
    const auto ratio = asked.swing ? asked.swing->ratio : form.chart.swing_ratio;
    return chart::swing_of(asked_for, ratio, tempo);
}

time::Swing RoadMap::Laid::tune_swing(time::Bpm tempo) const {
    return swing_of(form.chart.manner.with(asked.manner), tempo);
}

/// The change into a time through is one that the tune does not have: it comes neither from the bar
/// before nor from the last bar to the first.
bool RoadMap::Laid::is_seam(int time_through) const {
    if (time_through == 1) return false;
    const int before = way.stretch(time_through - 1).passage.to;
    const int here = way.stretch(time_through).passage.from;
    const bool comes_again = before == static_cast<int>(form.bars.size()) && here == 1;
    return before + 1 != here && !comes_again;
}

WhoPlays RoadMap::Laid::on(const chart::AskedManner& asked_for, int time_through) const {
    const bool head = !has_heads || way.stretch(time_through).name == "head";
    return {asked.click || asked_for.drums != chart::Drums::off, asked_for.bass != chart::Bass::off,
            asked.melody && head, asked.guitar};
}

WhoPlays RoadMap::Laid::left_out(int time_through, std::int64_t number) const {
    constexpr WhoPlays everybody{true, true, true, true};
    if (way.stretch(time_through).silent) return everybody;
    const auto later = std::upper_bound(
        alone.begin(), alone.end(), number,
        [](std::int64_t bar, const Decision& decision) { return bar < decision.from_bar; });
    if (later != alone.begin() && std::get<LeftAlone>(std::prev(later)->what).alone) {
        return everybody;
    }
    if (!asked.silence) return {};
    const auto& silence = *asked.silence;
    const std::int64_t counted = silence.times_through ? time_through - 1 : number - 1;
    if (counted % (silence.playing + silence.silent) < silence.playing) return {};
    return silence.drums_alone ? WhoPlays{true, false, false, false} : everybody;
}

}  // namespace compline::roadmap
