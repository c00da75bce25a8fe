#include "bass_chance.hpp"

#include <compline/band/comping.hpp>
#include <compline/band/drums.hpp>
#include <compline/band/part_writer.hpp>
#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace compline::band {

namespace {

using chart::Bass;
using time::Ticks;

/// How far the bass sees into the next time through.
constexpr int bars_in_view = 2;
constexpr int held_velocity = 80;
constexpr int held_kick = 52;
/// A held chord rings for its bar and the one after, or so.
constexpr int held_bars = 2;
/// What is decided by chance, each with a chance of its own.
enum class Matter : std::uint64_t { phrase = 101, figure, comping };

/// A key for chance: of a matter, at a time through and a bar (0: the whole of it).
std::uint64_t key_of(std::uint64_t seed, Matter matter, int time, int bar = 0) {
    const auto place = static_cast<std::uint64_t>(time) << 32U | static_cast<std::uint64_t>(bar);
    return mixed(mixed(seed ^ mixed(static_cast<std::uint64_t>(matter))) ^ place);
}

/// From one string of a strum to the next.
constexpr time::Seconds string_to_string{0.004};

/// Chords of a bar, from its bar line.
std::vector<chart::Slot> slots_of(const chart::Form& form, int number) {
    std::vector<chart::Slot> slots;
    const auto& bar = form.bar(number);
    const auto first =
        std::lower_bound(form.spans.begin(), form.spans.end(), number,
                         [](const chart::Span& span, int wanted) { return span.bar < wanted; });
    for (auto span = first; span != form.spans.end() && span->bar == number; ++span) {
        slots.push_back({span->start - bar.start, span->length, span->chord});
    }
    return slots;
}

BassBar tonic_bar(const chart::Form& form) {
    const auto& key = form.chart.key;
    const auto chord = harmony::read_chord(key.name(harmony::Accidentals::letters));
    return {{{Ticks(0), form.chart.meter.bar(), chord}}, Bass::roots, form.chart.feel(), {}};
}

/// A grip struck, its strings one after the other. A full one is as loud as a small one: power goes
/// by the fourth power of the velocity, times the strings.
void strike(const guitar::VoicingPlan& plan, const guitar::Shape& shape, const CompStrum& strum,
            Part& part) {
    constexpr double usual_strings = 3;
    const auto places = shape.places();
    const double share = std::pow(usual_strings / static_cast<double>(places.size()), 0.25);
    const auto velocity = static_cast<int>(std::lround(strum.velocity * share));
    time::Seconds rolled;
    for (const auto& place : places) {
        part.guitar.push_back(
            {strum.at, strum.length, plan.fretboard.note(place), velocity, rolled});
        rolled += string_to_string;
    }
}

/// How well a chord ends a tune: 2 as its tonic, 1 as one with a seventh that would lead on (the
/// tonic of a blues), 0 not at all. A chord of the other mode is no tonic, nor one over another
/// bass.
int ends_well(const harmony::Chord& chord, const chart::Key& key) {
    if (chord.root.pitch_class() != key.tonic.pitch_class() || chord.bass) return 0;
    if (key.minor) return harmony::is_minor(chord) ? 2 : 0;
    bool major = false;
    for (const auto& degree : harmony::chord_tones(chord)) {
        if (degree.number == 3) major = degree.alteration == 0;
        if (degree.number == 5 && degree.alteration != 0) return 0;
    }
    if (!major) return 0;
    return harmony::is_dominant(chord) ? 1 : 2;
}

/// The tonic as the plan plays it last, else as a shell; nothing where neither is there.
std::optional<guitar::Shape> tonic_shape(const guitar::VoicingPlan& plan, const chart::Key& key) {
    std::optional<guitar::Shape> shape;
    int best = 1;
    for (const auto& voicing : plan.voicings) {
        const int how_well = ends_well(voicing.change.to, key);
        if (how_well < best) continue;
        best = how_well;
        shape = voicing.grip.shape;
    }
    constexpr int strings_of_a_shell = 6;
    constexpr int middle_of_the_neck = 5;
    if (shape || plan.fretboard.strings() != strings_of_a_shell) return shape;
    const auto chord = harmony::read_chord(key.name(harmony::Accidentals::letters));
    return guitar::shell(plan.fretboard, chord, middle_of_the_neck);
}

}  // namespace

PartWriter::PartWriter(const chart::Form& form, Setup setup, time::Bpm tempo)
    : form_(form), setup_(std::move(setup)), tempo_(tempo), bass_(form.chart.meter, setup_.seed) {
    assert(!setup_.route.stretches.empty());
}

bool PartWriter::is_last(int time) const {
    const auto times = setup_.route.times_through();
    return times && time + 1 == *times;
}

Manner PartWriter::manner(int time, int bar) const {
    return manner_of(chart::asked_style(form_, setup_.route, time, bar, setup_.style), tempo_);
}

std::vector<BassBar> PartWriter::bass_bars(int time) const {
    std::vector<BassBar> bars;
    const auto passage = setup_.route.stretch(time).passage;
    for (int bar = passage.from; bar <= passage.to; ++bar) {
        const auto how = manner(time, bar);
        bars.push_back({slots_of(form_, bar), how.bass, how.feel, form_.bar(bar).kicks});
    }
    return bars;
}

DrumBar PartWriter::drum_bar_for(int time, int bar) {
    const auto& here = form_.bar(bar);
    const auto passage = setup_.route.stretch(time).passage;
    DrumBar drums{manner(time, bar), here.bar_in_section - 1, here.kicks, setup_.hihat_beats};
    drums.fill = setup_.fills && ends_section(time, bar) && !stops_after(time, bar);
    drums.crash = setup_.crash && bar == passage.from;
    drums.phrase = key_of(setup_.seed, Matter::phrase, time, bar - drums.number % bars_of_phrase);
    drums.light_fill = fills_lightly(time, bar, drums);
    choose_figure(time, bar, drums);
    return drums;
}

bool PartWriter::ends_section(int time, int bar) const {
    return bar == setup_.route.stretch(time).passage.to || form_.bar(bar + 1).bar_in_section == 1;
}

bool PartWriter::stops_after(int time, int bar) const {
    const auto& route = setup_.route;
    return bar == route.stretch(time).passage.to && is_last(time) && !route.held_ending;
}

/// Where the drums breathe: into every eighth bar's end, and a section's; not where a loop is too
/// short for a phrase, nor on kicks, nor where nothing follows.
bool PartWriter::fills_lightly(int time, int bar, const DrumBar& drums) const {
    if (!drums.manner.breathing || drums.fill) return false;
    const auto meter = form_.chart.meter;
    const bool short_loop = setup_.route.stretch(time).passage.bars() < bars_of_phrase;
    if (stops_after(time, bar) || short_loop) return false;
    const bool kicked =
        !drums.kicks.empty() && drums.kicks.back() >= meter.beat() * (meter.beats() - 2);
    return !kicked && (ends_section(time, bar) || form_.bar(bar).bar_in_section % 8 == 0);
}

void PartWriter::choose_figure(int time, int bar, DrumBar& drums) {
    if (!drums.fill && !drums.light_fill) return;
    int& last = drums.fill ? last_fill_ : last_light_fill_;
    const int figures = drums.fill ? fill_figures : light_figures;
    const Chance chance(key_of(setup_.seed, Matter::figure, time, bar));
    last = last < 0 ? chance.below(figures) : (last + 1 + chance.below(figures - 1)) % figures;
    drums.figure = last;
}

void PartWriter::write_drums(int time, Part& part) {
    const auto meter = form_.chart.meter;
    const auto passage = setup_.route.stretch(time).passage;
    for (int i = 0; i < passage.bars(); ++i) {
        const std::int64_t played = setup_.route.bars_before(time) + i;
        if (lays_out(setup_, time, played)) continue;
        const Ticks line = meter.bar() * played;
        if (!setup_.click) {
            for (Stroke stroke : drum_bar(drum_bar_for(time, passage.from + i), meter)) {
                stroke.at += line;
                part.strokes.push_back(stroke);
            }
        } else if (played % setup_.click->every == 0) {
            for (const Ticks at : setup_.click->positions) {
                part.strokes.push_back({line + at, Drum::stick, at == Ticks(0) ? 100 : 90});
            }
        }
    }
}

void PartWriter::write_bass(int time, Part& part) {
    const auto& route = setup_.route;
    const auto meter = form_.chart.meter;
    const auto passage = route.stretch(time).passage;
    std::vector<BassBar> then;
    std::optional<int> home;
    if (!is_last(time)) {
        then = bass_bars(time + 1);
        then.resize(std::min(then.size(), std::size_t{bars_in_view}));
    } else if (route.held_ending) {
        then = {tonic_bar(form_)};
    } else if (passage.to == static_cast<int>(form_.bars.size())) {
        home = form_.chart.key.tonic.pitch_class();
    }
    const Ticks start = route.start(time, meter);
    const bool plays_on = keeps_bass(setup_, time);
    const auto lays_out_at = [&](std::int64_t bar) {
        return !plays_on && lays_out(setup_, time, bar);
    };
    const std::int64_t first_bar = route.bars_before(time);
    for (BassNote note : bass_.next(bass_bars(time), then, home)) {
        const std::int64_t bar = first_bar + note.at / meter.bar();
        if (lays_out_at(bar)) continue;
        note.at += start;
        const Ticks line = meter.bar() * (bar + 1);
        const bool silence_next = bar + 1 < first_bar + passage.bars() && lays_out_at(bar + 1);
        if (silence_next) note.length = std::min(note.length, line - note.at);
        part.notes.push_back(note);
    }
}

void PartWriter::write_melody(int time, Part& part) const {
    if (setup_.melody.empty()) return;
    const auto& stretches = setup_.route.stretches;
    const auto is_head = [](const chart::Stretch& s) { return s.name == "head"; };
    const bool has_heads = std::any_of(stretches.begin(), stretches.end(), is_head);
    if (has_heads && !is_head(setup_.route.stretch(time))) return;
    const auto meter = form_.chart.meter;
    const auto passage = setup_.route.stretch(time).passage;
    const time::Beats from(form_.bar(passage.from).start);
    const time::Beats length(meter.bar() * passage.bars());
    const time::Beats start(setup_.route.start(time, meter));
    for (MelodyNote note : setup_.melody) {
        const time::Beats in = note.at - from;
        // What leads into the passage from the bar before is left out: it is another's place.
        if (in < time::Beats(0) || in >= length) continue;
        const auto bar = static_cast<std::int64_t>(in.count()) / meter.beats();
        if (lays_out(setup_, time, setup_.route.bars_before(time) + bar)) continue;
        note.at = start + in;
        part.melody.push_back(note);
    }
}

void PartWriter::write_guitar(int time, Part& part) const {
    if (!setup_.voicings) return;
    const auto meter = form_.chart.meter;
    const auto passage = setup_.route.stretch(time).passage;
    const std::int64_t first_bar = setup_.route.bars_before(time);
    const auto lays_out_at = [&](std::int64_t bar) {
        return !keeps_bass(setup_, time) && lays_out(setup_, time, bar);
    };
    std::vector<CompBar> bars;
    for (int number = passage.from; number <= passage.to; ++number) {
        const auto& bar = form_.bar(number);
        bars.push_back({bar.start, bar.bar_in_section - 1, manner(time, number).feel,
                        slots_of(form_, number), bar.kicks,
                        lays_out_at(first_bar + number - passage.from)});
    }
    const auto seed = key_of(setup_.seed, Matter::comping, time);
    for (CompStrum strum : comp(bars, meter, seed)) {
        const std::int64_t bar = first_bar + strum.at / meter.bar();
        const auto* const voicing = setup_.voicings->at(strum.in_form);
        if (voicing == nullptr || lays_out_at(bar)) continue;
        strum.at += meter.bar() * first_bar;
        strike(*setup_.voicings, voicing->grip.shape, strum, part);
    }
}

void PartWriter::write_kicks(int time, Part& part) const {
    const auto passage = setup_.route.stretch(time).passage;
    const Ticks start = setup_.route.start(time, form_.chart.meter);
    for (int bar = passage.from; bar <= passage.to; ++bar) {
        const Ticks line = start + form_.chart.meter.bar() * (bar - passage.from);
        for (const Ticks at : form_.bar(bar).kicks) part.kicks.push_back(line + at);
    }
}

void PartWriter::hold_ending(Part& part) const {
    const auto meter = form_.chart.meter;
    const Ticks at = meter.bar() * setup_.route.bars_before(written_ + 1);
    if (setup_.voicings) {
        if (const auto shape = tonic_shape(*setup_.voicings, form_.chart.key)) {
            strike(*setup_.voicings, *shape, {at, meter.bar() * held_bars, Ticks(0), held_velocity},
                   part);
        }
    }
    const auto how = manner(written_, setup_.route.stretch(written_).passage.to);
    if (setup_.click) {
        part.strokes.push_back({at, Drum::stick, 100});
    } else if (how.drums == chart::Drums::brushes) {
        part.strokes.push_back({at, Drum::kick, held_kick});
        part.strokes.push_back({at, Drum::brush_sweep, held_velocity});
    } else if (how.drums != chart::Drums::off) {
        part.strokes.push_back({at, Drum::kick, held_kick});
        part.strokes.push_back({at, Drum::crash, held_velocity});
    }
}

std::optional<Part> PartWriter::next() {
    const auto times = setup_.route.times_through();
    if (times && written_ == *times) return std::nullopt;
    const auto meter = form_.chart.meter;
    Part part;
    if (written_ == 0) part.strokes = count_in(meter, setup_.count_in_bars);
    write_drums(written_, part);
    write_bass(written_, part);
    write_melody(written_, part);
    write_guitar(written_, part);
    write_kicks(written_, part);
    if (is_last(written_) && setup_.route.held_ending) {
        hold_ending(part);
        const auto how = manner(written_, setup_.route.stretch(written_).passage.to);
        const auto at = meter.bar() * setup_.route.bars_before(written_ + 1);
        for (BassNote note :
             bass_.next({tonic_bar(form_)}, {}, form_.chart.key.tonic.pitch_class())) {
            if (how.bass == Bass::off || note.at > Ticks(0)) continue;
            note.at += at;
            note.length = meter.bar() * held_bars;
            part.notes.push_back(note);
        }
    }
    ++written_;
    return part;
}

}  // namespace compline::band
