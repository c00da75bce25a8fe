#include "grips.hpp"

#include <algorithm>

namespace compline::simulate {

namespace {

using guitar::Shape;
using harmony::Palette;

constexpr int widest_stretch = 4;  // frets, lowest to highest

const guitar::Fretboard& fretboard() {
    static const auto standard = guitar::Fretboard::standard();
    return standard;
}

std::optional<int>& fret_on(Shape& shape, int string) {
    return shape.frets[static_cast<std::size_t>(string - 1)];
}

int stretch(const Shape& shape) {
    int high = 0;
    for (const auto& place : shape.places()) high = std::max(high, place.fret);
    return high - lowest_fret(shape);
}

/// The new chord's own bass is the lowest note: it tells which chord is meant.
bool is_on_its_bass(const harmony::Chord& chord, const Shape& shape) {
    const auto lowest = fretboard().note(shape.places().front());
    return lowest.pitch_class() == chord.bass.value_or(chord.root).pitch_class();
}

/// Two different tones of the chord, one of which tells it from others: less is not heard as it.
bool is_heard_as(const Palette& palette, const Shape& shape) {
    const auto accepted = palette.accepted(sounding(shape));
    return accepted.count() >= 2 && (accepted & palette.telling()).any();
}

/// Wrong in one tone, and still more the new chord than the old one.
bool is_plainly_wrong(const HandChange& change, const Shape& spoilt) {
    const auto palette = widest_palette(change.to, change.key);
    const int ours = fit(palette, spoilt);
    const int old = fit(widest_palette(change.from, change.key), spoilt);
    return ours == strings_of(spoilt) - 2 && ours > 0 && is_heard_as(palette, spoilt) &&
           (ours > old || (ours == old && is_on_its_bass(change.to, spoilt)));
}

}  // namespace

Palette widest_palette(const harmony::Chord& chord, const chart::Key& key) {
    harmony::Surroundings around;
    around.falls = around.blues = around.two_beats = true;
    around.tonic_minor = key.minor && chord.root.pitch_class() == key.tonic.pitch_class();
    return {chord, around, harmony::Strictness::working};
}

Palette plainest_palette(const harmony::Chord& chord) {
    return {chord, {}, harmony::Strictness::working};
}

harmony::PitchClasses sounding(const Shape& shape) {
    harmony::PitchClasses set;
    for (const auto& place : shape.places()) {
        set.set(static_cast<std::size_t>(fretboard().note(place).pitch_class()));
    }
    return set;
}

int strings_of(const Shape& shape) { return static_cast<int>(shape.places().size()); }

int fit(const Palette& palette, const Shape& shape) {
    return strings_of(shape) - 2 * static_cast<int>(palette.foreign(sounding(shape)).count());
}

int lowest_fret(const Shape& shape) {
    int low = 100;
    for (const auto& place : shape.places()) low = std::min(low, place.fret);
    return low;
}

std::optional<Shape> moved(const Shape& shape, int frets) {
    Shape result = shape;
    for (auto& fret : result.frets) {
        if (!fret) continue;
        fret = *fret + frets;
        if (*fret < 1 || *fret > fretboard().frets()) return std::nullopt;
    }
    return result;
}

bool HandChange::tells() const { return fit(widest_palette(from, key), grip) < strings_of(grip); }

bool HandChange::old_grip_will_do() const {
    return fit(widest_palette(to, key), from_grip) == strings_of(from_grip);
}

harmony::MidiNote SpoiltGrip::note() const {
    return fretboard().note(
        {string, shape.frets[static_cast<std::size_t>(string - 1)].value_or(0)});
}

std::vector<SpoiltGrip> with_finger_off(const HandChange& change) {
    std::vector<SpoiltGrip> spoilt;
    for (const auto& place : change.grip.places()) {
        for (const int step : {1, -1}) {
            SpoiltGrip grip{change.grip, place.string, step, {}};
            fret_on(grip.shape, place.string) = place.fret + step;
            Shape old = change.from_grip;
            const bool stuck = fret_on(old, place.string) == place.fret + step;
            if (place.fret + step < 1 || stuck || !is_plainly_wrong(change, grip.shape)) continue;
            spoilt.push_back(grip);
        }
    }
    return spoilt;
}

std::vector<SpoiltGrip> with_stuck_finger(const HandChange& change) {
    std::vector<SpoiltGrip> spoilt;
    for (const auto& place : change.from_grip.places()) {
        SpoiltGrip grip{change.grip, place.string, 0, {}};
        auto& fret = fret_on(grip.shape, place.string);
        if (fret == place.fret) continue;
        grip.moved = fret ? place.fret - *fret : 0;
        fret = place.fret;
        const bool reached = grip.moved != 0 || stretch(grip.shape) <= widest_stretch;
        if (reached && is_plainly_wrong(change, grip.shape)) spoilt.push_back(grip);
    }
    return spoilt;
}

std::vector<SpoiltGrip> with_tone_left_out(const HandChange& change) {
    const auto palette = plainest_palette(change.to);
    const auto widest = widest_palette(change.to, change.key);
    std::vector<SpoiltGrip> spoilt;
    for (const auto& place : change.grip.places()) {
        SpoiltGrip grip{change.grip, place.string, 0, {}};
        fret_on(grip.shape, place.string).reset();
        const auto missing = palette.missing(sounding(grip.shape));
        // What is right in some tune, as a sus for its dominant, is not missing plainly.
        if (widest.missing(sounding(grip.shape)).empty()) continue;
        const bool plain =
            (sounding(grip.shape) & palette.telling()).any() && strings_of(grip.shape) >= 2 &&
            fit(widest_palette(change.from, change.key), grip.shape) < strings_of(grip.shape);
        if (missing.size() != 1 || !plain) continue;
        grip.left_out = missing.front();
        spoilt.push_back(grip);
    }
    return spoilt;
}

}  // namespace compline::simulate
