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

std::vector<int> upper_tones(const harmony::Chord& chord) {
    std::vector<int> tones;
    for (const auto& degree : harmony::read_degrees(harmony::row_of(chord.quality).defining)) {
        if (degree.number != 1) {
            tones.push_back((chord.root.pitch_class() + degree.pitch_class()) % 12);
        }
    }
    // A triad's third alone is thin: add the fifth.
    if (tones.size() == 1) {
        const auto fifth = harmony::chord_tones(chord).back();
        tones.push_back((chord.root.pitch_class() + fifth.pitch_class()) % 12);
    }
    return tones;
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

}  // namespace

std::vector<Place> Shape::places() const {
    std::vector<Place> places;
    for (int string = 6; string >= 1; --string) {
        const auto& fret = frets[static_cast<std::size_t>(string - 1)];
        if (fret) places.push_back({string, *fret});
    }
    return places;
}

std::string Shape::text() const {
    const bool wide = std::any_of(frets.begin(), frets.end(),
                                  [](const std::optional<int>& fret) { return fret >= 10; });
    std::string text;
    for (int string = 6; string >= 1; --string) {
        const auto& fret = frets[static_cast<std::size_t>(string - 1)];
        if (wide && !text.empty()) text += '-';
        text += fret ? std::to_string(*fret) : "x";
    }
    return text;
}

Shape shell(const Fretboard& fretboard, const harmony::Chord& chord, int near_fret) {
    const auto bass = chord.bass.value_or(chord.root);
    std::vector<int> tones = upper_tones(chord);
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
    assert(best.cost < std::numeric_limits<int>::max());
    return best.shape;
}

}  // namespace compline::guitar
