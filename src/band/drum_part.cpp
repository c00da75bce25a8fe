#include "drum_part.hpp"

#include "keyed_chance.hpp"

namespace compline::band {

namespace {

using time::Ticks;

/// Where the drums breathe: into every eighth bar's end, and a section's; not where a loop is too
/// short for a phrase, nor on kicks, nor where nothing follows.
bool fills_lightly(const TimeThrough& time, int bar, const DrumBar& drums) {
    if (!drums.manner.breathing || drums.fill) return false;
    const auto& here = time.form().bar(bar);
    const bool short_loop = time.passage().bars() < bars_of_phrase;
    if (time.stops_after(bar) || short_loop) return false;
    const bool kicked =
        !drums.kicks.empty() && drums.kicks.back() >= here.meter.bar() - here.meter.beat() * 2;
    const bool eighth_bar = here.bar_in_section % 8 == 0;
    return !kicked && (time.ends_section(bar) || eighth_bar);
}

void choose_figure(const TimeThrough& time, int bar, LastFigures& figures, DrumBar& drums) {
    if (!drums.fill && !drums.light_fill) return;
    int& last = drums.fill ? figures.fill : figures.light_fill;
    const int count = drums.fill ? fill_figures : light_figures;
    const KeyedChance chance(time.key(Matter::figure, bar));
    last = last < 0 ? chance.below(count) : (last + 1 + chance.below(count - 1)) % count;
    drums.figure = last;
}

DrumBar drum_bar_for(const TimeThrough& time, int bar, LastFigures& last) {
    const auto& players = time.players;
    const auto& here = time.form().bar(bar);
    DrumBar drums{time.manner(bar), here.bar_in_section - 1, here.kicks, players.hihat_beats};
    drums.fill = players.fills && time.ends_section(bar) && !time.stops_after(bar);
    drums.crash = players.crash && bar == time.passage().from;
    drums.phrase = time.key(Matter::phrase, bar - drums.number % bars_of_phrase);
    drums.light_fill = fills_lightly(time, bar, drums);
    choose_figure(time, bar, last, drums);
    return drums;
}

void click_on(const roadmap::Click& click, const roadmap::PlayedBar& bar, Part& part) {
    if ((bar.number - 1) % click.every != 0) return;
    for (const Ticks at : click.positions) {
        part.strokes.push_back({bar.start + at, Drum::stick, at == Ticks(0) ? 100 : 90});
    }
}

}  // namespace

void write_drums(const TimeThrough& time, LastFigures& last, Part& part) {
    const auto& click = time.map.asked().click;
    for (int number = time.passage().from; number <= time.passage().to; ++number) {
        const auto bar = time.played(number);
        if (bar.left_out.drums) continue;
        if (click) {
            click_on(*click, bar, part);
            continue;
        }
        for (Stroke stroke : drum_bar(drum_bar_for(time, number, last), bar.meter())) {
            stroke.at += bar.start;
            part.strokes.push_back(stroke);
        }
    }
}

}  // namespace compline::band
