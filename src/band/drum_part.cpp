#include "drum_part.hpp"

#include "keyed_chance.hpp"

namespace compline::band {

namespace {

using time::Ticks;

/// Where the drums breathe: into every eighth bar's end, and a section's; not where a loop is too
/// short for a phrase, nor on kicks, nor where nothing follows.
bool fills_lightly(const TimeThrough& time, int bar, const DrumBar& drums) {
    if (!drums.manner.breathing || drums.fill) return false;
    const auto meter = time.meter();
    const bool short_loop = time.passage().bars() < bars_of_phrase;
    if (time.stops_after(bar) || short_loop) return false;
    const bool kicked =
        !drums.kicks.empty() && drums.kicks.back() >= meter.beat() * (meter.beats() - 2);
    const bool eighth_bar = time.form.bar(bar).bar_in_section % 8 == 0;
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
    const auto& setup = time.setup;
    const auto& here = time.form.bar(bar);
    DrumBar drums{time.manner(bar), here.bar_in_section - 1, here.kicks, setup.hihat_beats};
    drums.fill = setup.fills && time.ends_section(bar) && !time.stops_after(bar);
    drums.crash = setup.crash && bar == time.passage().from;
    drums.phrase = time.key(Matter::phrase, bar - drums.number % bars_of_phrase);
    drums.light_fill = fills_lightly(time, bar, drums);
    choose_figure(time, bar, last, drums);
    return drums;
}

void click_on(const Click& click, std::int64_t played, Ticks line, Part& part) {
    if (played % click.every != 0) return;
    for (const Ticks at : click.positions) {
        part.strokes.push_back({line + at, Drum::stick, at == Ticks(0) ? 100 : 90});
    }
}

}  // namespace

void write_drums(const TimeThrough& time, LastFigures& last, Part& part) {
    const auto meter = time.meter();
    for (int bar = time.passage().from; bar <= time.passage().to; ++bar) {
        const std::int64_t played = time.played(bar);
        if (lays_out(time.setup, time.number, played)) continue;
        const Ticks line = meter.bar() * played;
        if (time.setup.click) {
            click_on(*time.setup.click, played, line, part);
            continue;
        }
        for (Stroke stroke : drum_bar(drum_bar_for(time, bar, last), meter)) {
            stroke.at += line;
            part.strokes.push_back(stroke);
        }
    }
}

}  // namespace compline::band
