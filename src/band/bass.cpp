#include <compline/band/bass.hpp>
#include <compline/band/walk.hpp>

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <optional>

namespace compline::band {

namespace {

using harmony::Chord;
using harmony::Quality;
using time::Ticks;

/// Semitones above the root.
struct ChordTones {
    int third;  // the second or fourth of a sus chord
    int fifth;
    std::optional<int> colour;  // sixth or seventh
};

/// The one place that knows what chords are made of.
ChordTones tones_of(Quality quality) {
    switch (quality) {
        case Quality::major:
            return {4, 7, std::nullopt};
        case Quality::minor:
            return {3, 7, std::nullopt};
        case Quality::diminished:
            return {3, 6, std::nullopt};
        case Quality::augmented:
            return {4, 8, std::nullopt};
        case Quality::suspended_second:
            return {2, 7, std::nullopt};
        case Quality::suspended_fourth:
            return {5, 7, std::nullopt};
        case Quality::sixth:
        case Quality::six_nine:
            return {4, 7, 9};
        case Quality::minor_sixth:
            return {3, 7, 9};
        case Quality::major_seventh:
            return {4, 7, 11};
        case Quality::dominant_seventh:
        case Quality::dominant_ninth:
        case Quality::dominant_thirteenth:
        case Quality::dominant_flat_nine:
            return {4, 7, 10};
        case Quality::minor_seventh:
        case Quality::minor_ninth:
            return {3, 7, 10};
        case Quality::half_diminished:
            return {3, 6, 10};
        case Quality::diminished_seventh:
            return {3, 6, 9};
        case Quality::dominant_sharp_five:
            return {4, 8, 10};
        case Quality::dominant_suspended:
            return {5, 7, 10};
    }
    return {4, 7, std::nullopt};
}

struct Beat {
    Ticks at;
    std::optional<Chord> chord;  // none: N.C.
    int number;                  // in its bar, from 1
    int bar;                     // counted on through all times, from 0
    bool starts;                 // a chord starts here, or a time through
};

const chart::Span& span_at(const chart::Form& form, Ticks at) {
    const auto after = std::upper_bound(form.spans.begin(), form.spans.end(), at,
                                        [](Ticks t, const chart::Span& s) { return t < s.start; });
    assert(after != form.spans.begin());
    return *(after - 1);
}

/// Chords of charts start on beats; so one look a beat sees them all.
std::vector<Beat> beats_of(const chart::Form& form, chart::Passage passage, int times) {
    const auto meter = form.chart.meter;
    const Ticks from = meter.bar() * (passage.from - 1);
    std::vector<Beat> beats;
    for (int bar = 0; bar < passage.bars() * times; ++bar) {
        const int bar_of_passage = bar % passage.bars();
        for (int number = 1; number <= meter.beats(); ++number) {
            const Ticks in_bar = meter.beat() * (number - 1);
            const auto& chord = span_at(form, from + meter.bar() * bar_of_passage + in_bar).chord;
            const bool first = bar_of_passage == 0 && number == 1;
            const bool starts = first || chord != beats.back().chord;
            beats.push_back({meter.bar() * bar + in_bar, chord, number, bar, starts});
        }
    }
    return beats;
}

int bass_of(const Chord& chord) { return chord.bass.value_or(chord.root).pitch_class(); }

int above_root(const Chord& chord, int semitones) {
    return (chord.root.pitch_class() + semitones) % 12;
}

Step root(const Chord& chord) { return {{{bass_of(chord), 0}}}; }

Step third_or_fifth(const Chord& chord, int bar) {
    const auto tones = tones_of(chord.quality);
    const bool odd = bar % 2 != 0;
    return {{{above_root(chord, tones.third), odd ? 0 : 2},
             {above_root(chord, tones.fifth), odd ? 2 : 0}}};
}

/// A chord that goes on from the bar before: the fifth or the root to begin with, in turn.
Step first_beat_again(const Chord& chord, int bar) {
    const auto tones = tones_of(chord.quality);
    const bool odd = bar % 2 != 0;
    return {{{bass_of(chord), odd ? 3 : 0},
             {above_root(chord, tones.third), 2},
             {above_root(chord, tones.fifth), odd ? 0 : 3}}};
}

Step any_tone(const Chord& chord) {
    const auto tones = tones_of(chord.quality);
    Step step{{{bass_of(chord), 2},
               {above_root(chord, tones.third), 0},
               {above_root(chord, tones.fifth), 0}}};
    if (tones.colour) step.choices.push_back({above_root(chord, *tones.colour), 1});
    return step;
}

bool belongs(const Chord& chord, int pitch_class) {
    const auto tones = tones_of(chord.quality);
    return pitch_class == chord.root.pitch_class() ||
           pitch_class == above_root(chord, tones.third) ||
           pitch_class == above_root(chord, tones.fifth) ||
           (tones.colour && pitch_class == above_root(chord, *tones.colour));
}

/// Into the next root from a semitone below or above, in turn by the bar, or from a whole tone
/// away where that is a tone of the chord.
Step approach(const Chord& chord, const Chord& next, int bar) {
    const int target = bass_of(next);
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

std::vector<BassNote> bass_line(const chart::Form& form, chart::Passage passage,
                                int times_through) {
    assert(times_through >= 1 && passage.from >= 1 && passage.from <= passage.to);
    assert(passage.to <= static_cast<int>(form.bars.size()));
    const auto beats = beats_of(form, passage, times_through);
    const int strong_beat = form.chart.meter.beats() == 3 ? 2 : 3;
    std::vector<Step> steps;
    std::vector<Beat> sounding;
    for (std::size_t i = 0; i < beats.size(); ++i) {
        if (!beats[i].chord) continue;
        steps.push_back(step_at(beats, i, strong_beat));
        sounding.push_back(beats[i]);
    }
    const auto line = walk(steps);
    std::vector<BassNote> notes;
    for (std::size_t i = 0; i < line.size(); ++i) notes.push_back(note_on(sounding[i], line[i]));
    return notes;
}

}  // namespace compline::band
