#include <compline/band/bass.hpp>
#include <compline/band/walk.hpp>
#include <compline/harmony/quality.hpp>

#include <cassert>
#include <cstddef>
#include <optional>

namespace compline::band {

namespace {

using harmony::Chord;
using time::Ticks;

/// What a bass player thinks of, as pitch classes.
struct BassTones {
    int bass;   // the root, or what the slash asks for
    int third;  // the second or fourth of a sus chord; where there is none, the fifth
    int fifth;
    std::optional<int> colour;  // sixth or seventh
};

BassTones tones_of(const Chord& chord) {
    BassTones tones{chord.bass.value_or(chord.root).pitch_class(), -1, -1, {}};
    for (const auto& degree : harmony::chord_tones(chord)) {
        const int tone = (chord.root.pitch_class() + degree.pitch_class()) % 12;
        if (degree.number >= 2 && degree.number <= 4 && tones.third < 0) tones.third = tone;
        if (degree.number == 5 && tones.fifth < 0) tones.fifth = tone;
        const bool sixth_or_seventh = degree.number == 6 || degree.number == 7;
        if (sixth_or_seventh && !tones.colour) tones.colour = tone;
    }
    // Without a fifth (C7alt, C(no5)) the third does its work, and the other way round.
    if (tones.fifth < 0) tones.fifth = tones.third < 0 ? chord.root.pitch_class() : tones.third;
    if (tones.third < 0) tones.third = tones.fifth;
    return tones;
}

struct Beat {
    Ticks at;
    std::optional<Chord> chord;  // none: N.C.
    int number;                  // in its bar, from 1
    int bar;                     // counted on through all times, from 0
    bool starts;                 // a chord starts here, or a time through
};

/// The times through `first` to `end` - 1, from 0. Chords of charts start on beats; so one look a
/// beat sees them all.
std::vector<Beat> beats_of(const chart::Form& form, chart::Passage passage, int first, int end) {
    const auto meter = form.chart.meter;
    const auto spans = form.spans_of(passage);
    std::vector<Beat> beats;
    for (int time = first; time < end; ++time) {
        const int first_bar = time * passage.bars();
        for (const auto& span : spans) {
            const int number = static_cast<int>(span.start % meter.bar() / meter.beat()) + 1;
            const int bar = first_bar + span.bar - passage.from;
            const bool seam = span.start == Ticks(0);
            for (int i = 0; i < static_cast<int>(span.length / meter.beat()); ++i) {
                const bool starts = i == 0 && (seam || span.chord != beats.back().chord);
                const auto at = meter.bar() * first_bar + span.start + meter.beat() * i;
                beats.push_back({at, span.chord, number + i, bar, starts});
            }
        }
    }
    return beats;
}

Step root(const Chord& chord) { return {{{tones_of(chord).bass, 0}}}; }

Step third_or_fifth(const Chord& chord, int bar) {
    const auto tones = tones_of(chord);
    const bool odd = bar % 2 != 0;
    return {{{tones.third, odd ? 0 : 2}, {tones.fifth, odd ? 2 : 0}}};
}

/// A chord that goes on from the bar before: the fifth or the root to begin with, in turn.
Step first_beat_again(const Chord& chord, int bar) {
    const auto tones = tones_of(chord);
    const bool odd = bar % 2 != 0;
    return {{{tones.bass, odd ? 3 : 0}, {tones.third, 2}, {tones.fifth, odd ? 0 : 3}}};
}

Step any_tone(const Chord& chord) {
    const auto tones = tones_of(chord);
    Step step{{{tones.bass, 2}, {tones.third, 0}, {tones.fifth, 0}}};
    if (tones.colour) step.choices.push_back({*tones.colour, 1});
    return step;
}

bool belongs(const Chord& chord, int pitch_class) {
    const auto tones = tones_of(chord);
    return pitch_class == tones.bass || pitch_class == chord.root.pitch_class() ||
           pitch_class == tones.third || pitch_class == tones.fifth || pitch_class == tones.colour;
}

/// Into the next root from a semitone below or above, in turn by the bar, or from a whole tone
/// away where that is a tone of the chord.
Step approach(const Chord& chord, const Chord& next, int bar) {
    const int target = tones_of(next).bass;
    const bool odd = bar % 2 != 0;
    Step step{{{(target + 11) % 12, odd ? 2 : 0}, {(target + 1) % 12, odd ? 0 : 2}}, 2};
    for (const int whole_tone : {2, 10}) {
        const int pitch_class = (target + whole_tone) % 12;
        if (belongs(chord, pitch_class)) step.choices.push_back({pitch_class, 1});
    }
    return step;
}

Step step_at(const std::vector<Beat>& beats, std::size_t i, int strong_beat) {
    const Beat& beat = beats[i];
    const Chord& chord = *beat.chord;
    const bool last = i + 1 == beats.size();
    if (beat.starts || last) return root(chord);
    const Beat& next = beats[i + 1];
    if (next.starts && next.chord) return approach(chord, *next.chord, beat.bar);
    if (beat.number == strong_beat) return third_or_fifth(chord, beat.bar);
    return beat.number == 1 ? first_beat_again(chord, beat.bar) : any_tone(chord);
}

BassNote note_on(const Beat& beat, harmony::MidiNote note) {
    static constexpr Ticks length{
        static_cast<std::int64_t>(static_cast<double>(time::quarter_note.count()) * note_share)};
    return {beat.at, length, note, beat.starts ? 88 : 80};
}

}  // namespace

BassWriter::BassWriter(const chart::Form& form, chart::Passage passage,
                       std::optional<int> times_through)
    : form_(form), passage_(passage), times_through_(times_through) {
    assert(times_through.value_or(1) >= 1 && passage.from >= 1 && passage.from <= passage.to);
    assert(passage.to <= static_cast<int>(form.bars.size()));
}

std::vector<BassNote> BassWriter::next() {
    if (times_through_ && written_ == *times_through_) return {};
    const bool last = times_through_ && written_ + 1 == *times_through_;
    const auto beats = beats_of(form_, passage_, written_, written_ + (last ? 1 : 2));
    const Ticks end = form_.chart.meter.bar() * passage_.bars() * (written_ + 1);
    const int strong_beat = form_.chart.meter.beats() == 3 ? 2 : 3;
    std::vector<Step> steps;
    std::vector<Beat> sounding;
    for (std::size_t i = 0; i < beats.size(); ++i) {
        if (!beats[i].chord) continue;
        steps.push_back(step_at(beats, i, strong_beat));
        sounding.push_back(beats[i]);
    }
    const auto line = walk(steps, lead_);
    std::vector<BassNote> notes;
    for (std::size_t i = 0; i < line.size() && sounding[i].at < end; ++i) {
        notes.push_back(note_on(sounding[i], line[i]));
        if (lead_.notes.size() == 2) lead_.notes.erase(lead_.notes.begin());
        lead_.notes.push_back(line[i]);
        lead_.leap_to_next = steps[i].leap_to_next;
    }
    ++written_;
    return notes;
}

std::vector<BassNote> bass_line(const chart::Form& form, chart::Passage passage,
                                int times_through) {
    BassWriter writer(form, passage, times_through);
    std::vector<BassNote> line;
    for (int time = 0; time < times_through; ++time) {
        const auto notes = writer.next();
        line.insert(line.end(), notes.begin(), notes.end());
    }
    return line;
}

}  // namespace compline::band
