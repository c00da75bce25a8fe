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
      first_bars{1},
      starts{Ticks(0)},
      asked_tempi{{1, asked.tempo.value_or(form.chart.tempo)}},
      tempi(asked_tempi.front().tempo) {
    refuse_impossible(form, asked);
    go_on_with(asked.way);
    if (asked.silence) refuse_lost_silence(*asked.silence, way);
    DecisionCheck check(form);
    for (const auto& decision : decided) {
        check.check(decision, bars());
        decide(decision);
    }
    lay_tempi();
    lay_swing();
}

/// Where the way goes on, what is listed reaches beyond the last decision, and from there on a time
/// through comes again and again.
RoadMap::Laid::Loop RoadMap::Laid::loop() const {
    const auto last_decided = decided.empty() ? 1 : decided.back().from_bar;
    const auto from = std::max(*std::prev(first_bars.end(), 2), last_decided);
    return {from, from + way.stretches.back().passage.bars()};
}

void RoadMap::Laid::lay_swing() {
    swing = tune_swing(asked_tempi.front().tempo);
    const auto lay = [&](std::int64_t from, std::int64_t to) {
        for (auto number = from; number < to; ++number) {
            const int time_through = time_through_of(number);
            const auto here = bar(time_through, number);
            const auto unit = here.meter().swung();
            if (unit > Ticks(0)) {
                swings.add(here.start, swing_of(here.manner, here.tempo, unit), unit);
            } else {
                swings.add(here.start, time::Swing::straight());
            }
        }
    };
    if (!way.goes_on) {
        lay(1, first_bars.back());
        return;
    }
    const auto again = loop();
    lay(1, again.to);
    swings.repeat(bar(time_through_of(again.from), again.from).start,
                  form.length(way.stretches.back().passage));
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

Ticks RoadMap::Laid::start_of_bar(std::int64_t number) const {
    if (number == first_bars.back()) return starts.back();
    return bar(time_through_of(number), number).start;
}

const RoadMap::Laid::Wait* RoadMap::Laid::wait_at(std::int64_t number) const {
    const auto found =
        std::lower_bound(waits.begin(), waits.end(), number,
                         [](const Wait& wait, std::int64_t bar) { return wait.number < bar; });
    return found != waits.end() && found->number == number ? &*found : nullptr;
}

const RoadMap::Laid::Wait* RoadMap::Laid::wait_around(Ticks position) const {
    const auto after = std::upper_bound(waits.begin(), waits.end(), position,
                                        [](Ticks at, const Wait& wait) { return at < wait.start; });
    if (after == waits.begin()) return nullptr;
    const auto& wait = *std::prev(after);
    return position < wait.start + wait.written.meter.bar() ? &wait : nullptr;
}

PlayedBar RoadMap::Laid::bar(const Wait& wait) const {
    PlayedBar bar;
    bar.number = wait.number;
    bar.time_through = wait.time_through;
    bar.written = &wait.written;
    bar.start = wait.start;
    bar.tempo = tempi.tempo_at(Beats(bar.start));
    bar.tune_tempo = asked_tempo(bar.number);
    bar.swing = swings.at(bar.start, swing);
    bar.manner = form.chart.manner.with(asked.manner);
    bar.waits = true;
    return bar;
}

PlayedBar RoadMap::Laid::bar(int time_through, std::int64_t number) const {
    if (const auto* const wait = wait_at(number)) return bar(*wait);
    const auto& passage = way.stretch(time_through).passage;
    const int in_form = passage.from + static_cast<int>(number - first_bar(time_through));
    PlayedBar bar;
    bar.number = number;
    bar.time_through = time_through;
    bar.written = &form.bar(in_form);
    bar.start = start(time_through) + bar.written->start - form.bar(passage.from).start;
    bar.tempo = tempi.tempo_at(Beats(bar.start));
    bar.tune_tempo = asked_tempo(number);
    bar.swing = swings.at(bar.start, swing);
    bar.manner = manner(time_through, in_form);
    bar.chords = form.spans_in(in_form);
    bar.on = on(bar.manner, time_through);
    bar.left_out = left_out(time_through, number);
    bar.decided_out = decided_out(number);
    bar.seam = in_form == passage.from && is_seam(time_through);
    if (bar.written->rubato) {
        bar.waits = true;
        bar.left_out = everybody;
    }
    return bar;
}

chart::AskedManner RoadMap::Laid::manner(int time_through, int bar) const {
    return form.bar(bar).manner.with(way.stretch(time_through).manner).with(asked.manner);
}

/// Where the band feels a longer note as its beat it swings as it would at that tempo.
time::Swing RoadMap::Laid::swing_of(const chart::AskedManner& asked_for, time::Bpm tempo,
                                    Ticks unit) const {
    const auto ratio = asked.swing ? asked.swing->ratio : form.chart.swing_ratio;
    const double felt = tempo.count() / Beats(unit).count();
    return chart::swing_of(asked_for, ratio, time::Bpm(felt));
}

time::Swing RoadMap::Laid::tune_swing(time::Bpm tempo) const {
    return swing_of(form.chart.manner.with(asked.manner), tempo);
}

/// The change into a time through is one that the tune does not have: it comes neither from the bar
/// before nor from the last bar to the first. Behind a wait nothing leads anywhere.
bool RoadMap::Laid::is_seam(int time_through) const {
    if (time_through == 1 || wait_at(first_bar(time_through) - 1) != nullptr) return false;
    const int before = way.stretch(time_through - 1).passage.to;
    const int here = way.stretch(time_through).passage.from;
    const bool at_the_end = before == form.whole().to;
    const bool comes_again = at_the_end && (here == 1 || here == form.segno);
    const bool into_coda = before == form.to_coda && here == form.coda_from;
    const bool goes_on = before + 1 == here && here != form.coda_from;
    return !goes_on && !comes_again && !into_coda;
}

WhoPlays RoadMap::Laid::on(const chart::AskedManner& asked_for, int time_through) const {
    const auto later =
        std::upper_bound(ways.begin(), ways.end(), time_through,
                         [](int number, const WayFrom& next) { return number < next.from; });
    const bool head = !std::prev(later)->has_heads || way.stretch(time_through).name == "head";
    return {asked.click || asked_for.drums != chart::Drums::off, asked_for.bass != chart::Bass::off,
            asked.melody && head, asked.guitar};
}

WhoPlays RoadMap::Laid::left_out(int time_through, std::int64_t number) const {
    if (way.stretch(time_through).silent) return everybody;
    if (!asked.silence) return {};
    const auto& silence = *asked.silence;
    const std::int64_t counted = silence.times_through ? time_through - 1 : number - 1;
    if (counted % (silence.playing + silence.silent) < silence.playing) return {};
    return silence.drums_alone ? WhoPlays{true, false, false, false} : everybody;
}

WhoPlays RoadMap::Laid::decided_out(std::int64_t number) const {
    const auto later =
        std::upper_bound(laid_out.begin(), laid_out.end(), number,
                         [](std::int64_t bar, const LaidOut& laid) { return bar < laid.from_bar; });
    return later == laid_out.begin() ? WhoPlays{} : std::prev(later)->who;
}

}  // namespace compline::roadmap
