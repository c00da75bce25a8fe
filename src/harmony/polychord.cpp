#include "polychord.hpp"

#include <compline/harmony/quality.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bitset>
#include <vector>

namespace compline::harmony {

namespace {

using Q = Quality;
using A = Alteration;
using TonesUpward = std::bitset<12>;

constexpr std::array triads = {
    Q::major, Q::minor, Q::diminished, Q::augmented, Q::suspended_second, Q::suspended_fourth};

// What is said beside a seventh chord, in the order in which it is preferred.
constexpr std::array sayable = {A::flat_nine,      A::sharp_nine, A::sharp_eleven,
                                A::flat_thirteen,  A::added_nine, A::added_eleven,
                                A::added_thirteen, A::flat_five,  A::sharp_five};

/// Above a root.
TonesUpward tones_above(const Spelling& root, const Chord& chord) {
    TonesUpward tones;
    const int shift = chord.root.pitch_class() - root.pitch_class() + 12;
    for (const auto& degree : chord_tones(chord)) {
        tones.set(static_cast<std::size_t>((degree.pitch_class() + shift) % 12));
    }
    return tones;
}

/// Third, fourth and seventh of the chord as written: what an upper structure leaves alone.
std::vector<Degree> core_of(const std::vector<Degree>& tones) {
    std::vector<Degree> core;
    for (const auto& degree : tones) {
        const bool telling = degree.number >= 2 && degree.number <= 7 && degree.number != 5;
        if (telling) core.push_back(degree);
    }
    return core;
}

bool has_seventh(const std::vector<Degree>& tones) {
    return std::any_of(tones.begin(), tones.end(), [](const Degree& d) { return d.number == 7; });
}

bool is_triad_over_seventh(const Chord& upper, const Chord& lower) {
    const bool triad = std::find(triads.begin(), triads.end(), upper.quality) != triads.end() &&
                       upper.alterations.none();
    return triad && has_seventh(chord_tones(lower));
}

/// Nobody sets the fourth beside a major third.
bool clashes(const TonesUpward& tones, const Chord& lower) {
    const auto core = core_of(chord_tones(lower));
    const bool third = std::find(core.begin(), core.end(), Degree{3, 0}) != core.end();
    return third && tones[static_cast<std::size_t>(Degree{11, 0}.pitch_class())];
}

/// All sets of so many of what can be said.
std::vector<Alterations> sets_of(std::size_t size) {
    std::vector<Alterations> sets;
    if (size == 0) return {{}};
    for (std::size_t i = 0; i < sayable.size(); ++i) {
        if (size == 1) sets.push_back({sayable[i]});
        for (std::size_t j = i + 1; size == 2 && j < sayable.size(); ++j) {
            sets.push_back({sayable[i], sayable[j]});
        }
    }
    return sets;
}

}  // namespace

std::optional<Chord> polychord(const Chord& upper, const Chord& lower) {
    if (!is_triad_over_seventh(upper, lower)) return std::nullopt;
    const auto tones = tones_above(lower.root, upper) | tones_above(lower.root, lower);
    if (tones == tones_above(lower.root, lower)) return lower;
    if (clashes(tones, lower)) return std::nullopt;
    const auto core = core_of(chord_tones(lower));
    // A minor third is no sharp ninth.
    const bool minor = std::find(core.begin(), core.end(), Degree{3, -1}) != core.end();
    for (const std::size_t size : {0U, 1U, 2U}) {
        for (const auto& alterations : sets_of(size)) {
            if (minor && alterations.has(A::sharp_nine)) continue;
            for (const auto& row : quality_table()) {
                if (core_of(read_degrees(row.tones)) != core) continue;
                const Chord whole = simplest({lower.root, row.quality, alterations, {}});
                if (tones_above(lower.root, whole) == tones) return whole;
            }
        }
    }
    return std::nullopt;
}

std::string why_no_polychord(const Chord& upper, const Chord& lower) {
    constexpr auto letters = Accidentals::letters;
    if (!is_triad_over_seventh(upper, lower)) {
        return "of two chords at once a triad over a seventh chord is read, such as D/C7; two "
               "chords one after the other have a blank between them";
    }
    return fmt::format(
        "{0} over {1} makes no chord that can be said: write the one that is meant, "
        "or {0}/{2} for {0} with {2} in the bass",
        upper.symbol(letters), lower.symbol(letters), lower.root.name(letters));
}

}  // namespace compline::harmony
