#include "right_hand.hpp"

#include <algorithm>

namespace compline::simulate {

namespace {

using guitar::Shape;
using time::eighth_note;
using time::Ticks;

void break_up(const Road& road, const Intent& chord, std::vector<HandStroke>& own) {
    const auto whole = own.front();
    const auto places = whole.shape.places();
    const auto last = time_of(road, whole) + chord.apart * static_cast<double>(places.size() - 1);
    std::erase_if(
        own, [&](const HandStroke& s) { return time_of(road, s) < last + hands_need(road, s.at); });
    std::vector<HandStroke> strings;
    for (std::size_t n = 0; n < places.size(); ++n) {
        HandStroke one = whole;
        one.shape = {};
        one.shape.on(places[n].string) = places[n].fret;
        one.off = whole.off + chord.apart * static_cast<double>(n);
        one.broken = n > 0;
        one.held = true;
        if (n > 0) one.lands.reset();
        strings.push_back(one);
    }
    own.insert(own.begin(), strings.begin(), strings.end());
}

void stroke_up(const Intent& chord, std::vector<HandStroke>& own) {
    HandStroke up = own.front();
    up.off = up.off - chord.apart;
    up.up = true;
    up.lands.reset();
    own.insert(own.begin(), up);
}

void before(std::vector<HandStroke>& own, const Intent& chord, const Shape& shape,
            HandStroke::Kind kind, Chance& chance) {
    HandStroke stroke;
    stroke.at = chord.area.start - (chance.below(2) == 0 ? beat : eighth_note);
    stroke.shape = shape;
    stroke.kind = kind;
    own.insert(own.begin(), stroke);
}

/// The root of a chord low on the neck, or the fret below it.
Shape bass_note(const Intent& chord, Chance& chance) {
    const int string = 5 + static_cast<int>(chance.below(2));
    int fret = (chord.area.chord.root.pitch_class() - board().open(string).pitch_class() + 24) % 12;
    if (fret > 1 && chance.below(2) == 0) --fret;
    Shape shape;
    shape.on(string) = fret;
    return shape;
}

void pass(const Intent& chord, std::vector<HandStroke>& own, Chance& chance) {
    const auto from = chord.area.start + eighth_note;
    const auto until = chord.area.start + beat * 2 + eighth_note;
    std::erase_if(own, [&](const HandStroke& s) { return from < s.at && s.at < until; });
    HandStroke foreign;
    foreign.at = chord.area.start + beat + (chance.below(2) == 0 ? Ticks(0) : eighth_note);
    foreign.shape = chord.slip.shape;
    HandStroke home = foreign;
    home.at = chord.area.start + beat * 2;
    home.shape = *chord.grip;
    own.insert(own.begin() + 1, {foreign, home});
}

void strum_dead(const Road& road, const Intent& chord, std::vector<HandStroke>& own) {
    for (const auto in : {beat, eighth_note, beat + eighth_note, beat * 2}) {
        HandStroke stroke;
        stroke.at = chord.area.start + in;
        stroke.shape = *chord.grip;
        stroke.kind = HandStroke::Kind::dead;
        const auto at = time_of(road, stroke);
        const auto near = [&](const HandStroke& s) {
            return time::abs(time_of(road, s) - at) < hands_need(road, s.at);
        };
        if (std::any_of(own.begin(), own.end(), near)) continue;
        const auto after = [&](const HandStroke& s) { return s.at > stroke.at; };
        own.insert(std::find_if(own.begin(), own.end(), after), stroke);
        return;
    }
}

}  // namespace

void add_gesture(const Road& road, const Intent& chord, std::vector<HandStroke>& own,
                 Chance& chance) {
    if (!chord.deed) return;
    switch (*chord.deed) {
        case Deed::broken:
            return break_up(road, chord, own);
        case Deed::up_stroke:
            return stroke_up(chord, own);
        case Deed::approach:
            return before(own, chord, chord.slip.shape, HandStroke::Kind::grip, chance);
        case Deed::lead_in:
            return before(own, chord, bass_note(chord, chance), HandStroke::Kind::single, chance);
        case Deed::passing:
            return pass(chord, own, chance);
        case Deed::dead_strum:
            return strum_dead(road, chord, own);
        default:
            return;
    }
}

}  // namespace compline::simulate
