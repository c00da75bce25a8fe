#include "bass_part.hpp"
#include "drum_part.hpp"
#include "ending.hpp"
#include "guitar_part.hpp"
#include "sift.hpp"
#include "time_through.hpp"

#include <compline/band/part_writer.hpp>

#include <cassert>
#include <cstdint>
#include <utility>
#include <variant>

namespace compline::band {

namespace {

using chart::Bass;
using time::Ticks;

constexpr int held_velocity = 80;
constexpr int held_kick = 52;

void write_melody(const TimeThrough& time, Part& part) {
    const time::Beats from(time.form().bar(time.passage().from).start);
    const time::Beats length(time.map.start(time.number + 1) - time.start());
    for (MelodyNote note : time.players.melody) {
        const time::Beats in = note.at - from;
        // What leads into the passage from the bar before is left out: it is another's place.
        if (in < time::Beats(0) || in >= length) continue;
        const Ticks beat = time::quarter_note * static_cast<std::int64_t>(in.count());
        const auto bar = time.map.bar_at(time.start() + beat);
        if (!bar.on.melody || bar.left_out.melody) continue;
        note.at = time::Beats(time.start()) + in;
        part.melody.push_back(note);
    }
}

void write_kicks(const TimeThrough& time, Part& part) {
    for (int bar = time.passage().from; bar <= time.passage().to; ++bar) {
        const auto here = time.played(bar);
        for (const Ticks at : here.written->kicks) part.kicks.push_back(here.start + at);
    }
}

/// Where a held ending is struck, and for how long it rings.
struct HeldEnding {
    Ticks at;
    Ticks ring;
};

void hold_drums(const TimeThrough& last, Ticks at, Part& part) {
    const auto drums = last.manner(last.passage().to).drums;
    if (last.map.asked().click) {
        part.strokes.push_back({at, Drum::stick, 100});
    } else if (drums != chart::Drums::off) {
        const bool brushes = drums == chart::Drums::brushes;
        part.strokes.push_back({at, Drum::kick, held_kick});
        part.strokes.push_back({at, brushes ? Drum::brush_sweep : Drum::crash, held_velocity});
    }
}

void hold_bass(const TimeThrough& last, const HeldEnding& held, BassWriter& writer, Part& part) {
    const auto& key = last.form().bar(last.passage().to).key;
    const bool silent = last.manner(last.passage().to).bass == Bass::off;
    for (BassNote note :
         writer.next({tonic_bar(last.map, last.players.voicings)}, {}, key.tonic.pitch_class())) {
        if (silent || note.at > Ticks(0)) continue;
        note.at += held.at;
        note.length = held.ring;
        part.notes.push_back(note);
    }
}

void hold_ending(const TimeThrough& last, BassWriter& bass, Part& part) {
    const auto last_bar = last.played(last.passage().to);
    const HeldEnding held{last_bar.end(), last_bar.meter().bar() * held_bars};
    const auto& voicings = last.players.voicings;
    if (voicings) {
        if (const auto shape = tonic_shape(*voicings, last_bar.written->key)) {
            strike(*voicings, *shape, {held.at, held.ring, Ticks(0), held_velocity}, part);
        }
    }
    hold_drums(last, held.at, part);
    hold_bass(last, held, bass, part);
}

/// With which it goes on behind a wait: also where that was stopped before it came.
time::Meter meter_behind(const roadmap::RoadMap& map, std::int64_t wait) {
    for (const auto& decision : map.decided()) {
        const auto* const waited = std::get_if<roadmap::Waited>(&decision.what);
        if (waited == nullptr || decision.from_bar != wait) continue;
        return map.form().bar(waited->way.stretches.front().passage.from).meter;
    }
    return map.bar(1).meter();
}

/// A wait behind a time through ends with a bar of clicks, in the meter of what comes, where it is
/// long enough for one. They are known when the wait is.
void count_in_again(const roadmap::RoadMap& map, int time_through, Part& part) {
    const auto last = map.bars().value_or(INT64_MAX);
    const auto& passage = map.way().stretch(time_through).passage;
    auto number = map.first_bar(time_through) + passage.bars();
    for (; number <= last; ++number) {
        const auto wait = map.bar(number);
        if (!wait.waits || wait.in_form() != 0) return;
        const auto meter = meter_behind(map, number);
        if (meter.bar() > wait.meter().bar()) continue;
        for (Stroke click : count_in(meter, 1)) {
            click.at += wait.end();
            part.strokes.push_back(click);
        }
    }
}

/// What is out of time ends with a bar of clicks, in the meter and the tempo of what comes.
void count_in_behind_rubato(const TimeThrough& time, Part& part) {
    const auto& passage = time.passage();
    for (int bar = passage.from; bar < passage.to; ++bar) {
        const auto next = time.played(bar + 1);
        if (!time.played(bar).waits || next.waits) continue;
        for (Stroke click : count_in(next.meter(), 1)) {
            click.at += next.start;
            part.strokes.push_back(click);
        }
    }
}

/// The bass alone leads in, with the roots, while the sticks count on.
void lead_in(const TimeThrough& time, Part& part) {
    const auto first = time.played(time.passage().from);
    const auto& spans = time.form().lead_in;
    const bool begins = first.in_form() == 1 && first.plays().bass && !spans.empty();
    if (!begins || -spans.front().start > time.map.count_in()) return;
    for (const auto& span : spans) {
        if (!span.chord) continue;
        constexpr int lowest = 28;  // E1, the open string
        const int root = span.chord->bass.value_or(span.chord->root).pitch_class();
        part.notes.push_back(
            {span.start, span.length, harmony::MidiNote(lowest + (root - lowest % 12 + 12) % 12)});
    }
}

}  // namespace

PartWriter::PartWriter(roadmap::RoadMap map, Players players)
    : map_(std::move(map)), known_(map_), players_(std::move(players)), bass_(players_.seed) {
    assert(map_.asked().melody == !players_.melody.empty());
    assert(map_.asked().guitar == players_.voicings.has_value());
}

void PartWriter::follow(roadmap::RoadMap map) { map_ = std::move(map); }

std::optional<Part> PartWriter::next() {
    if (written_ == map_.times_through()) return std::nullopt;
    known_ = map_.known_at(map_.first_bar(written_ + 1));
    const TimeThrough time{known_, players_, written_ + 1};
    Part part;
    if (written_ == 0) part.strokes = count_in(time.meter(), map_.count_in_bars());
    if (written_ == 0) lead_in(time, part);
    write_drums(time, last_figures_, part);
    write_bass(time, bass_, part);
    write_melody(time, part);
    write_guitar(time, part);
    write_kicks(time, part);
    count_in_behind_rubato(time, part);
    if (time.is_last() && known_.way().held_ending) hold_ending(time, bass_, part);
    ++written_;
    sift(part, map_, written_);
    count_in_again(map_, written_, part);
    return part;
}

}  // namespace compline::band
