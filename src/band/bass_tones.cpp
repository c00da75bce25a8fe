#include "bass_tones.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <vector>

namespace compline::band {

namespace {

using Steps = std::vector<int>;  // upwards, in semitones

/// A root without third and fifth is walked on as if the fifth were there.
constexpr int widest_gap = 7;
constexpr int against = 1000;  // more than all that the chords around can say

/// The ways to fill a gap between two chord tones with as few steps as it takes; the usual one
/// first. A gap of a semitone or a whole tone is a step already. The usual steps over a major third
/// end with the whole tone (3 4 5), all others begin with one.
const std::vector<Steps>& fillings(int gap, bool over_major_third) {
    static const std::vector<Steps> none = {{}};
    static const std::vector<Steps> three = {{2, 1}, {1, 2}};
    static const std::vector<Steps> three_over_third = {{1, 2}, {2, 1}};
    static const std::vector<Steps> four = {{2, 2}};
    static const std::vector<Steps> five = {{2, 2, 1}, {2, 1, 2}, {1, 2, 2}};
    static const std::vector<Steps> five_over_third = {{1, 2, 2}, {2, 1, 2}, {2, 2, 1}};
    static const std::vector<Steps> six = {{2, 2, 2}};
    static const std::vector<Steps> seven = {
        {2, 2, 1, 2}, {2, 1, 2, 2}, {2, 2, 2, 1}, {1, 2, 2, 2}};
    switch (gap) {
        case 3:
            return over_major_third ? three_over_third : three;
        case 4:
            return four;
        case 5:
            return over_major_third ? five_over_third : five;
        case 6:
            return six;
        case 7:
            return seven;
        default:
            return none;
    }
}

/// The ninth, eleventh and thirteenth colour a chord; a bass line passes through them.
bool bears_a_line(const harmony::Degree& degree) { return degree.number <= 7; }

}  // namespace

BassTones::BassTones(const harmony::Chord& symbol)
    : root(symbol.root.pitch_class()), bass(symbol.bass.value_or(symbol.root).pitch_class()) {
    for (const auto& degree : harmony::chord_tones(symbol)) {
        const int tone = (root + degree.pitch_class()) % 12;
        if (degree.number >= 2 && degree.number <= 4 && !third) third = tone;
        if (degree.number == 5 && (!fifth || degree.alteration < 0)) fifth = tone;
        if (bears_a_line(degree)) chord.insert(tone);
        named.insert(tone);
    }
    for (const auto& degree : harmony::contradicted_tones(symbol)) {
        contradicted.insert((root + degree.pitch_class()) % 12);
    }
    for (auto* const set : {&chord, &named}) {
        set->insert(bass);
        if (fifth) set->insert(*fifth);
    }
    rest_on_the_sixth();
    find_what_is_never(symbol);
}

void BassTones::rest_on_the_sixth() {
    const bool major_seventh = chord.has((root + 4) % 12) && chord.has((root + 7) % 12) &&
                               chord.has((root + 11) % 12) && !chord.has((root + 10) % 12);
    const int sixth = (root + 9) % 12;
    if (major_seventh && !contradicted.has(sixth)) chord.insert(sixth);
}

void BassTones::find_what_is_never(const harmony::Chord& symbol) {
    const auto ban = [&](int tone) {
        if (!named.has(tone)) never.insert(tone);
    };
    const int minor_third = (root + 3) % 12;
    const int major_third = (root + 4) % 12;
    if (harmony::is_suspended(symbol)) ban(major_third);
    const bool diminished = third == minor_third && fifth == (root + 6) % 12;
    if (diminished) ban((root + 7) % 12);
    const bool half = chord.has((root + 10) % 12) || chord.has((root + 11) % 12);
    if (diminished && !half) keep_to_the_diminished_scale();
    if (harmony::is_dominant(symbol) && !named.has(minor_third)) blue_third = minor_third;
}

void BassTones::keep_to_the_diminished_scale() {
    for (const int above : {1, 4, 7, 10, 11}) {
        const int tone = (root + above) % 12;
        if (!named.has(tone)) contradicted.insert(tone);
    }
}

PitchClassSet BassTones::scale(const KeyProfile& around) const {
    PitchClassSet scale = named;
    for (int above = 0; above < 12;) {
        const int low = (root + above) % 12;
        int gap = 1;
        while (!named.has((low + gap) % 12) && gap < widest_gap) ++gap;
        const Steps* best = nullptr;
        int most = 0;
        for (const auto& steps : fillings(gap, above == 4)) {
            int heard = 0;
            int tone = low;
            for (const int step : steps) {
                tone = (tone + step) % 12;
                heard += passes(tone) ? around[static_cast<std::size_t>(tone)] : -against;
            }
            if (best == nullptr || heard > most) {
                best = &steps;
                most = heard;
            }
        }
        int tone = low;
        for (const int step : *best) {
            tone = (tone + step) % 12;
            if (passes(tone)) scale.insert(tone);
        }
        above += gap;
    }
    return scale;
}

}  // namespace compline::band
