#include "bass_part.hpp"
#include "drum_part.hpp"
#include "ending.hpp"
#include "guitar_part.hpp"
#include "time_through.hpp"

#include <compline/band/part_writer.hpp>

#include <algorithm>
#include <cassert>
#include <utility>

namespace compline::band {

namespace {

using chart::Bass;
using time::Ticks;

constexpr int held_velocity = 80;
constexpr int held_kick = 52;
/// A held chord rings for its bar and the one after, or so.
constexpr int held_bars = 2;

/// The melody is played on the heads, where the route has any.
bool has_melody(const TimeThrough& time) {
    if (time.setup.melody.empty()) return false;
    const auto& stretches = time.setup.route.stretches;
    const auto is_head = [](const chart::Stretch& s) { return s.name == "head"; };
    const bool has_heads = std::any_of(stretches.begin(), stretches.end(), is_head);
    return !has_heads || is_head(time.stretch());
}

void write_melody(const TimeThrough& time, Part& part) {
    if (!has_melody(time)) return;
    const auto meter = time.meter();
    const auto passage = time.passage();
    const time::Beats from(time.form.bar(passage.from).start);
    const time::Beats length(meter.bar() * passage.bars());
    const time::Beats start(time.start());
    for (MelodyNote note : time.setup.melody) {
        const time::Beats in = note.at - from;
        // What leads into the passage from the bar before is left out: it is another's place.
        if (in < time::Beats(0) || in >= length) continue;
        const auto bar = static_cast<std::int64_t>(in.count()) / meter.beats();
        if (lays_out(time.setup, time.number, time.first_played() + bar)) continue;
        note.at = start + in;
        part.melody.push_back(note);
    }
}

void write_kicks(const TimeThrough& time, Part& part) {
    for (int bar = time.passage().from; bar <= time.passage().to; ++bar) {
        const Ticks line = time.meter().bar() * time.played(bar);
        for (const Ticks at : time.form.bar(bar).kicks) part.kicks.push_back(line + at);
    }
}

void hold_drums(const TimeThrough& last, Ticks at, Part& part) {
    const auto drums = last.manner(last.passage().to).drums;
    if (last.setup.click) {
        part.strokes.push_back({at, Drum::stick, 100});
    } else if (drums != chart::Drums::off) {
        const bool brushes = drums == chart::Drums::brushes;
        part.strokes.push_back({at, Drum::kick, held_kick});
        part.strokes.push_back({at, brushes ? Drum::brush_sweep : Drum::crash, held_velocity});
    }
}

void hold_bass(const TimeThrough& last, Ticks at, BassWriter& writer, Part& part) {
    const auto& form = last.form;
    const bool silent = last.manner(last.passage().to).bass == Bass::off;
    for (BassNote note : writer.next({tonic_bar(form, last.setup.voicings)}, {},
                                     form.chart.key.tonic.pitch_class())) {
        if (silent || note.at > Ticks(0)) continue;
        note.at += at;
        note.length = last.meter().bar() * held_bars;
        part.notes.push_back(note);
    }
}

void hold_ending(const TimeThrough& last, BassWriter& bass, Part& part) {
    const Ticks ring = last.meter().bar() * held_bars;
    const Ticks at = last.meter().bar() * last.setup.route.bars_before(last.number + 1);
    const auto& voicings = last.setup.voicings;
    if (voicings) {
        if (const auto shape = tonic_shape(*voicings, last.form.chart.key)) {
            strike(*voicings, *shape, {at, ring, Ticks(0), held_velocity}, part);
        }
    }
    hold_drums(last, at, part);
    hold_bass(last, at, bass, part);
}

}  // namespace

PartWriter::PartWriter(const chart::Form& form, Setup setup, time::Bpm tempo)
    : form_(form), setup_(std::move(setup)), tempo_(tempo), bass_(form.chart.meter, setup_.seed) {
    assert(!setup_.route.stretches.empty());
}

std::optional<Part> PartWriter::next() {
    const auto times = setup_.route.times_through();
    if (times && written_ == *times) return std::nullopt;
    const TimeThrough time{form_, setup_, tempo_, written_ + 1};
    Part part;
    if (written_ == 0) part.strokes = count_in(time.meter(), setup_.count_in_bars);
    write_drums(time, last_figures_, part);
    write_bass(time, bass_, part);
    write_melody(time, part);
    write_guitar(time, part);
    write_kicks(time, part);
    if (time.is_last() && setup_.route.held_ending) hold_ending(time, bass_, part);
    ++written_;
    return part;
}

}  // namespace compline::band
