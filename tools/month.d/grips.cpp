#include "grips.hpp"

#include <compline/simulate/hand_voicings.hpp>

#include <algorithm>
#include <cstdlib>

namespace compline::month {

namespace {

using guitar::Shape;
using simulate::Intervals;

int above_root(const harmony::Chord& chord, const guitar::StringAndFret& place) {
    static const auto board = guitar::Fretboard::standard();
    return (board.note(place).number() - chord.root.pitch_class() + 120) % 12;
}

int lowest_fret(const Shape& shape) {
    int lowest = guitar::most_frets;
    for (const auto& place : shape.places()) lowest = std::min(lowest, place.fret);
    return lowest;
}

/// Frets that the hand moves, and a little for each string that it leaves or takes up.
int way_to(const Shape& from, const Shape& to) {
    constexpr int a_fret = 2;
    int way = a_fret * std::abs(lowest_fret(to) - lowest_fret(from));
    for (std::size_t string = 0; string < to.frets.size(); ++string) {
        way += from.frets.at(string).has_value() != to.frets.at(string).has_value() ? 1 : 0;
    }
    return way;
}

Intervals set_of(std::initializer_list<std::size_t> intervals) {
    Intervals set;
    for (const auto interval : intervals) set.set(interval);
    return set;
}

/// Common practice, no source.
Intervals plainly_wrong(const harmony::Chord& chord) {
    const auto sounds = simulate::sounds_of(chord);
    const bool major = sounds.test(4);
    if (major && sounds.test(10)) return set_of({11});
    if (major) return set_of({1, 3, 8});
    if (!sounds.test(3)) return {};
    if (sounds.test(7)) return set_of({1, 4});
    return sounds.test(10) ? set_of({4, 7}) : set_of({1, 4});
}

}  // namespace

std::optional<Shape> next_grip(const harmony::Chord& chord, const std::optional<Shape>& last) {
    static const auto home = Shape::of({5, 5, 5, 5});
    const auto grips = simulate::known_grips(chord);
    const auto& from = last ? *last : home;
    const auto nearest = std::min_element(
        grips.begin(), grips.end(),
        [&](const auto& a, const auto& b) { return way_to(from, a) < way_to(from, b); });
    if (nearest == grips.end()) return std::nullopt;
    return *nearest;
}

std::vector<Shape> a_fret_off(const harmony::Chord& chord, const Shape& grip) {
    const auto wrong = plainly_wrong(chord);
    const auto places = grip.places();
    std::vector<Shape> slips;
    for (std::size_t i = 1; i < places.size(); ++i) {  // the lowest says which chord it is
        for (const int by : {1, -1}) {
            const guitar::StringAndFret beside{places[i].string, places[i].fret + by};
            if (beside.fret < 1) continue;
            if (!wrong.test(static_cast<std::size_t>(above_root(chord, beside)))) continue;
            slips.push_back(grip);
            slips.back().on(beside.string) = beside.fret;
        }
    }
    return slips;
}

bool clashes(const Shape& grip, const harmony::Chord& chord) {
    const auto wrong = plainly_wrong(chord);
    const auto sounds = simulate::sounds_of(chord);
    int foreign = 0;
    for (const auto& place : grip.places()) {
        const auto interval = static_cast<std::size_t>(above_root(chord, place));
        if (wrong.test(interval)) return true;
        foreign += sounds.test(interval) ? 0 : 1;
    }
    return foreign >= 3;
}

}  // namespace compline::month
