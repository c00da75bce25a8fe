#include "chord_sound.hpp"
#include "packed_grip.hpp"
#include "written_tones.hpp"

#include <compline/guitar/effort.hpp>
#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <cstdlib>
#include <vector>

namespace compline::guitar {

namespace {

constexpr int narrow_below = 5;  // the fret from which frets are narrow enough

Cost barre_cost(const Grip::Hold& hold) {
    if (!hold.is_barre()) return 0;
    const int strings = hold.low - hold.high + 1;
    return (hold.finger == Finger::index ? weight::index_barre : weight::other_barre) +
           strings * weight::barre_string;
}

/// Fingers side by side want a fret each.
Cost spread_cost(const Grip::Holds& holds) {
    Cost cost = 0;
    const Grip::Hold* before = nullptr;
    for (const auto& hold : holds) {
        if (hold.finger == Finger::thumb) continue;
        if (before != nullptr) {
            const int wanted = static_cast<int>(hold.finger) - static_cast<int>(before->finger);
            const int wide = hold.fret - before->fret - wanted;
            const Cost stretch =
                before->finger == Finger::index ? weight::index_stretch : weight::stretch;
            cost += wide > 0 ? wide * stretch : -wide * weight::crowd;
        }
        before = &hold;
    }
    return cost;
}

/// Which fingers they are.
Cost finger_cost(const Grip::Holds& holds) {
    if (holds.empty()) return 0;
    Cost cost = holds.front().finger == Finger::index ? 0 : weight::no_index;
    for (const auto& hold : holds) {
        cost += barre_cost(hold);
        if (hold.finger == Finger::little) cost += weight::little_finger;
        if (hold.finger == Finger::thumb) cost += weight::thumb;
    }
    return cost;
}

Cost string_cost(const Shape& shape) {
    Cost cost = 0;
    int left_out = 0;  // since the last that sounds
    bool sounding = false;
    for (int string = 1; string <= shape.strings; ++string) {
        const auto& fret = shape.on(string);
        if (!fret) {
            left_out += sounding ? 1 : 0;
            continue;
        }
        cost += left_out * weight::inner_mute + (*fret == 0 ? weight::open_string : 0);
        left_out = 0;
        sounding = true;
    }
    return cost;
}

}  // namespace

Cost comfort_cost(const Grip& grip, int capo) {
    int low = 0;
    int high = 0;
    for (const auto& place : grip.shape.places()) {
        if (place.fret == 0) continue;
        low = low == 0 ? place.fret : std::min(low, place.fret);
        high = std::max(high, place.fret);
    }
    return form_cost(grip) + neck_cost(low, high, capo);
}

Cost neck_cost(int low, int high, int capo) {
    if (low == 0) return 0;
    return low + capo < narrow_below
               ? (high - low) * weight::low_stretch
               : std::max(0, high + capo - weight::high_frets) * weight::high_fret;
}

Cost form_cost(const Grip& grip) {
    const auto holds = grip.holds();
    return spread_cost(holds) + finger_cost(holds) + string_cost(grip.shape);
}

Cost sound_cost(const Fretboard& fretboard, const Shape& shape, const harmony::Palette& palette,
                const InPlace& place) {
    Notes notes;
    for (const auto& fretted : shape.places()) notes.add(fretboard.note(fretted).number());
    return ChordSound(palette, place).cost(notes);
}

harmony::PitchClasses point_of(const harmony::Chord& from, const harmony::Chord& to) {
    const WrittenTones before(from);
    const WrittenTones after(to);
    auto telling = after.tensions | after.thirds | after.sevenths | after.altered_fifths;
    // Any three tones make a diminished seventh, so that each of the four tells.
    if (to.quality == harmony::Quality::diminished_seventh ||
        to.quality == harmony::Quality::diminished) {
        telling |= after.all;
    }
    return telling & ~before.all;
}

int haste(time::Seconds left) {
    constexpr double quick = 0.4;
    constexpr double slow = 1.25;
    return static_cast<int>(64 / std::clamp(left.count(), quick, slow));
}

Cost reach_cost(const Fretboard& fretboard, const Grip& from, const Grip& to, const WayIn& way_in) {
    return packed_reach(pack(fretboard, from), pack(fretboard, to), way_in);
}

}  // namespace compline::guitar
