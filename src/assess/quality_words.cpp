#include "habit_groups.hpp"

#include <compline/harmony/quality.hpp>

namespace compline::assess {

namespace {

using harmony::Quality;

/// Extensions are no kind of their own: a thirteenth chord is a dominant.
std::string_view family_of(Quality quality) {
    switch (quality) {
        case Quality::major:
            return "major";
        case Quality::minor:
            return "minor";
        case Quality::augmented:
            return "augmented";
        case Quality::power:
            return "fifth";
        case Quality::sixth:
        case Quality::six_nine:
            return "major sixth";
        case Quality::minor_sixth:
        case Quality::minor_six_nine:
            return "minor sixth";
        case Quality::major_seventh:
        case Quality::major_ninth:
        case Quality::major_eleventh:
        case Quality::major_thirteenth:
            return "major seventh";
        case Quality::dominant_seventh:
        case Quality::dominant_ninth:
        case Quality::dominant_eleventh:
        case Quality::dominant_thirteenth:
            return "dominant";
        case Quality::altered:
            return "altered";
        case Quality::minor_seventh:
        case Quality::minor_ninth:
        case Quality::minor_eleventh:
        case Quality::minor_thirteenth:
            return "minor seventh";
        case Quality::minor_major_seventh:
        case Quality::minor_major_ninth:
        case Quality::minor_major_eleventh:
        case Quality::minor_major_thirteenth:
            return "minor-major";
        case Quality::half_diminished:
        case Quality::half_diminished_ninth:
        case Quality::half_diminished_eleventh:
            return "half-diminished";
        case Quality::diminished:
        case Quality::diminished_seventh:
        case Quality::diminished_major_seventh:
            return "diminished";
        default:
            return "sus";
    }
}

}  // namespace

std::string quality_words(const harmony::Chord& chord) {
    std::string words(family_of(chord.quality));
    if (chord.alterations.none()) return words;
    constexpr auto signs = harmony::Accidentals::symbols;
    for (const auto& row : harmony::alteration_table()) {
        if (!chord.alterations.has(row.alteration)) continue;
        const auto tones = harmony::read_degrees(row.tone);
        const bool added = row.symbol.starts_with("add");
        words += ' ';
        words += tones.empty() || added ? std::string(row.symbol) : tones.front().name(signs);
    }
    return words;
}

}  // namespace compline::assess
