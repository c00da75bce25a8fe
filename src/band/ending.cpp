#include "ending.hpp"

#include <compline/harmony/quality.hpp>

namespace compline::band {

namespace {

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

}  // namespace

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

BassBar tonic_bar(const roadmap::RoadMap& map, const std::optional<guitar::VoicingPlan>& plan) {
    const auto last = map.bar(*map.bars());
    const auto& key = last.written->key;
    const auto chord = harmony::read_chord(key.name(harmony::Accidentals::letters));
    BassBar bar{{{time::Ticks(0), last.meter().bar(), chord}},
                chart::Bass::roots,
                map.form().chart.feel(),
                {}};
    bar.meter = last.meter();
    const auto shape = plan ? tonic_shape(*plan, key) : std::nullopt;
    if (shape) bar.guitar_lowest = guitar::lowest_note(plan->fretboard, *shape);
    return bar;
}

}  // namespace compline::band
