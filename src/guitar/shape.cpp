#include <compline/guitar/shape.hpp>
#include <compline/harmony/quality.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <limits>

namespace compline::guitar {

namespace {

/// Highest less lowest fret that a hand holds without a stretch.
constexpr int widest_span = 3;
constexpr int highest_root_fret = 12;

/// What makes the chord over its root: the first of each demand, a sixth that is optional too.
std::vector<int> upper_tones(const harmony::Chord& chord) {
    std::vector<harmony::Degree> degrees;
    const auto tones = harmony::chord_tones(chord);
    for (const auto& demand : harmony::defining_tones(chord)) degrees.push_back(demand.front());
    for (const auto& tone : tones) {
        const bool there = std::find(degrees.begin(), degrees.end(), tone) != degrees.end();
        if (tone.number == 6 && !there) degrees.push_back(tone);
    }
    std::vector<int> upper;
    for (const auto& degree : degrees) {
        const int tone = (chord.root.pitch_class() + degree.pitch_class()) % 12;
        if (degree.number != 1) upper.push_back(tone);
    }
    // A triad's third alone is thin: add the fifth.
    for (const auto& tone : tones) {
        const int fifth = (chord.root.pitch_class() + tone.pitch_class()) % 12;
        if (upper.size() == 1 && tone.number == 5 && upper[0] != fifth) upper.push_back(fifth);
    }
    return upper;
}

/// The fret of a pitch class on a string that lies nearest to `around`, 1 or higher.
int nearest_fret(const Fretboard& fretboard, int string, int pitch_class, int around) {
    int best = 100;
    for (int fret = 1; fret <= fretboard.frets(); ++fret) {
        const bool here = fretboard.note({string, fret}).pitch_class() == pitch_class;
        if (here && std::abs(fret - around) < std::abs(best - around)) best = fret;
    }
    return best;
}

struct Candidate {
    Shape shape;
    int cost = std::numeric_limits<int>::max();
};

int span(const Shape& shape) {
    int low = 100;
    int high = 0;
    for (const auto& place : shape.places()) {
        low = std::min(low, place.fret);
        high = std::max(high, place.fret);
    }
    return high - low;
}

int lowest_fret(const Shape& shape) {
    int low = 100;
    for (const auto& place : shape.places()) low = std::min(low, place.fret);
    return low;
}

/// The best grip of a bass note and the tones above it, in any order; nothing where no hand
/// reaches.
std::optional<Shape> best_grip(const Fretboard& fretboard, const harmony::Spelling& bass,
                               std::vector<int> tones, int near_fret) {
    std::sort(tones.begin(), tones.end());
    Candidate best;
    for (const int root_string : {6, 5}) {
        const int root_fret =
            nearest_fret(fretboard, root_string, bass.pitch_class(), std::max(near_fret, 1));
        if (root_fret > highest_root_fret) continue;
        do {
            for (int top = 2; top + static_cast<int>(tones.size()) <= 5; ++top) {
                Candidate candidate;
                candidate.shape.frets[static_cast<std::size_t>(root_string - 1)] = root_fret;
                for (std::size_t i = 0; i < tones.size(); ++i) {
                    const int string = top + static_cast<int>(i);
                    candidate.shape.frets[static_cast<std::size_t>(string - 1)] =
                        nearest_fret(fretboard, string, tones[i], root_fret);
                }
                if (span(candidate.shape) > widest_span) continue;
                // Prefer strings 4 and 3 to 3 and 2, then the least travel, then a small grip.
                candidate.cost = 100 * std::abs(lowest_fret(candidate.shape) - near_fret) +
                                 30 * (3 - top) * (3 - top) + span(candidate.shape);
                if (candidate.cost < best.cost) best = candidate;
            }
        } while (std::next_permutation(tones.begin(), tones.end()));
    }
    if (best.cost == std::numeric_limits<int>::max()) return std::nullopt;
    return best.shape;
}

}  // namespace

Shape Shape::of(const std::vector<std::optional<int>>& from_lowest) {
    assert(from_lowest.size() <= std::size_t{most_strings});
    Shape shape;
    shape.strings = static_cast<int>(from_lowest.size());
    std::copy(from_lowest.rbegin(), from_lowest.rend(), shape.frets.begin());
    return shape;
}

std::vector<StringAndFret> Shape::places() const {
    std::vector<StringAndFret> places;
    for (int string = strings; string >= 1; --string) {
        const auto& fret = on(string);
        if (fret) places.push_back({string, *fret});
    }
    return places;
}

std::string Shape::text() const {
    const bool wide = std::any_of(frets.begin(), frets.end(),
                                  [](const std::optional<int>& fret) { return fret >= 10; });
    std::string text;
    for (int string = strings; string >= 1; --string) {
        const auto& fret = on(string);
        if (wide && !text.empty()) text += '-';
        text += fret ? std::to_string(*fret) : "x";
    }
    return text;
}

std::optional<harmony::MidiNote> lowest_note(const Fretboard& fretboard, const Shape& shape) {
    std::optional<harmony::MidiNote> lowest;
    for (const auto& place : shape.places()) {
        const auto note = fretboard.note(place);
        lowest = std::min(lowest.value_or(note), note);
    }
    return lowest;
}

Shape shell(const Fretboard& fretboard, const harmony::Chord& chord, int near_fret) {
    const auto bass = chord.bass.value_or(chord.root);
    auto tones = upper_tones(chord);
    // Where no hand reaches them all, the least telling goes first.
    while (true) {
        if (const auto grip = best_grip(fretboard, bass, tones, near_fret)) return *grip;
        assert(!tones.empty());
        tones.pop_back();
    }
}

}  // namespace compline::guitar
