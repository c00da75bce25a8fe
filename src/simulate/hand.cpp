#include "hand.hpp"

#include <algorithm>
#include <cstdlib>

namespace compline::simulate {

namespace {

using guitar::Shape;

/// How far the hand goes, and a little more where it changes strings.
int distance(const Shape& from, const Shape& to) {
    int far = 3 * std::abs(lowest_fret(from) - lowest_fret(to));
    for (int string = 1; string <= 6; ++string) {
        if (from.on(string).has_value() != to.on(string).has_value()) far += 2;
    }
    return far;
}

bool is_wide(const Shape& from, const Shape& to) {
    return std::abs(lowest_fret(from) - lowest_fret(to)) > 4;
}

/// The lowest string is the fifth or the sixth, with the root on it.
bool has_low_root(const harmony::Chord& chord, const Shape& shape) {
    const auto places = shape.places();
    return places.front().string >= 5 && above(chord, board().note(places.front())) == 0;
}

}  // namespace

int lowest_fret(const Shape& shape) {
    int lowest = 24;
    for (const auto& place : shape.places()) lowest = std::min(lowest, place.fret);
    return lowest;
}

std::optional<Shape> next_grip(const harmony::Chord& chord, const Shape& last, bool far,
                               bool root_lowest, Chance& chance) {
    auto grips = known_grips(chord);
    if (root_lowest) {
        const auto other = std::stable_partition(
            grips.begin(), grips.end(), [&](const Shape& s) { return has_low_root(chord, s); });
        if (other != grips.begin()) grips.erase(other, grips.end());
    }
    if (grips.empty()) return std::nullopt;
    const auto wide = std::stable_partition(grips.begin(), grips.end(),
                                            [&](const Shape& s) { return !is_wide(last, s); });
    if (far && wide != grips.end()) grips.erase(grips.begin(), wide);
    std::stable_sort(grips.begin(), grips.end(), [&](const Shape& a, const Shape& b) {
        return distance(last, a) < distance(last, b);
    });
    return grips[chance.below(std::min<std::size_t>(grips.size(), 3))];
}

std::optional<Shape> moved_along(const Shape& shape, int frets) {
    Shape along = shape;
    for (const auto& place : shape.places()) {
        if (place.fret == 0 || place.fret + frets < 1 || place.fret + frets > 16)
            return std::nullopt;
        along.on(place.string) = place.fret + frets;
    }
    return along;
}

std::optional<Shape> fill_near(const harmony::Chord& chord, const Shape& grip, bool double_stop,
                               Chance& chance) {
    const auto tones = sounds_of(chord);
    const int middle = lowest_fret(grip) + 1;
    const auto tone_on = [&](int string) -> std::optional<int> {
        std::vector<int> frets;
        for (int fret = std::max(1, middle - 2); fret <= middle + 3; ++fret) {
            const int interval = above(chord, board().note({string, fret}));
            if (tones.test(static_cast<std::size_t>(interval))) frets.push_back(fret);
        }
        if (frets.empty()) return std::nullopt;
        return frets[chance.below(frets.size())];
    };
    Shape fill;
    const int string = 1 + static_cast<int>(chance.below(2));
    fill.on(string) = tone_on(string);
    if (double_stop) fill.on(string + 1) = tone_on(string + 1);
    if (fill.places().empty()) return std::nullopt;
    return fill;
}

}  // namespace compline::simulate
