#include "packed_grip.hpp"

#include <compline/guitar/move.hpp>

#include <algorithm>
#include <cstdlib>

namespace compline::guitar {

namespace {

constexpr int covers = covers_of(most_strings);

struct Cover {
    int high = 0;
    int low = 0;
};

constexpr Cover strings_of(int cover) {
    for (int low = 1; low <= most_strings; ++low) {
        for (int high = 1; high <= low; ++high) {
            if (cover_of(high, low) == cover) return {high, low};
        }
    }
    return {};
}

/// What a finger pays to get from cover to cover: a fixed part, and a part for each fret.
struct FingerCost {
    std::int16_t fixed = 0;
    std::int16_t by_fret = 0;
    bool guides = false;
};

constexpr FingerCost cost_between(int from_cover, int to_cover) {
    const auto from = strings_of(from_cover);
    const auto to = strings_of(to_cover);
    const bool barre = to.high != to.low;
    FingerCost cost;
    if (from_cover == 0 && to_cover == 0) return cost;
    if (from_cover == 0) {
        cost.fixed = weight::land + (barre ? weight::barre : 0);
    } else if (to_cover == 0) {
        cost.fixed = weight::lift;
    } else if (std::max(from.high, to.high) <= std::min(from.low, to.low)) {
        cost.fixed = from_cover == to_cover ? 0 : weight::roll;
        cost.by_fret = weight::slide;
        cost.guides = true;
    } else {
        const int crossed = from.high > to.low ? from.high - to.low : to.high - from.low;
        cost.fixed = static_cast<std::int16_t>(weight::hop + weight::hop_string * crossed +
                                               (barre ? weight::barre : 0));
    }
    return cost;
}

constexpr std::array<std::array<FingerCost, covers>, covers> make_costs() {
    std::array<std::array<FingerCost, covers>, covers> costs{};
    for (int from = 0; from < covers; ++from) {
        for (int to = 0; to < covers; ++to) {
            costs[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)] =
                cost_between(from, to);
        }
    }
    return costs;
}

constexpr auto finger_costs = make_costs();

Cost hurried(Cost cost, int haste) { return cost * haste / 64; }

Cost leap_cost(int frets) { return std::max(0, frets - weight::leap_frets) * weight::leap; }

Cost voices_cost(const Voices& from, const Voices& to) {
    Cost cost = top_cost(std::abs(to[0] - from[0]));
    for (std::size_t i = 1; i < from.size(); ++i) cost += voice_cost(std::abs(to[i] - from[i]));
    return cost;
}

}  // namespace

FingerReach finger_reach(int from_cover, int from_fret, int to_cover, int to_fret) {
    const auto& cost =
        finger_costs[static_cast<std::size_t>(from_cover)][static_cast<std::size_t>(to_cover)];
    return {cost.fixed + cost.by_fret * std::abs(to_fret - from_fret), cost.guides};
}

Cost whole_grip_cost(int frets, int haste) {
    const int near = std::min(frets, weight::whole_grip_frets);
    return near * weight::whole_grip + hurried((frets - near) * weight::whole_grip_further, haste) +
           leap_cost(frets);
}

Cost shift_cost(int frets, int haste, bool guided) {
    return hurried(frets * weight::shift, haste) / (guided ? 2 : 1) + leap_cost(frets);
}

Cost line_cost(const Voices& from, const Voices& to, Line line) {
    if (line == Line::free) return 0;
    const auto goes_along = [&](std::size_t i) {
        return line == Line::up ? to[i] > from[i] : to[i] < from[i];
    };
    Cost cost = goes_along(0) ? 0 : weight::line_broken;
    for (std::size_t i = 1; i < from.size(); ++i) {
        const bool before = from[i] != PackedGrip::no_voice;
        const bool after = to[i] != PackedGrip::no_voice;
        if (before && after && !goes_along(i)) cost += weight::voice_left_behind;
        if (before != after) cost += weight::voice_lost;
    }
    return cost;
}

Voices voices_of(const Notes& notes) {
    Voices voices;
    voices.fill(PackedGrip::no_voice);
    for (std::size_t i = 0; i < std::min(notes.count, voices.size()); ++i) {
        voices[i] = static_cast<std::uint8_t>(notes.numbers[notes.count - 1 - i]);
    }
    return voices;
}

PackedGrip pack(const Fretboard& fretboard, const Grip& grip) {
    PackedGrip packed;
    int low = 99;
    const auto holds = grip.holds();
    for (const auto& hold : holds) {
        const auto i = static_cast<std::size_t>(hold.finger) - 1;
        packed.cover[i] = static_cast<std::uint8_t>(cover_of(hold.high, hold.low));
        packed.fret[i] = static_cast<std::int8_t>(hold.fret);
        packed.place[i] =
            static_cast<std::uint16_t>(place_of(packed.cover[i], hold.fret, fretboard.frets()));
        low = std::min(low, hold.fret);
    }
    packed.hand = static_cast<std::int8_t>(hand_position(holds).value_or(0));
    Notes notes;
    for (int string = 1; string <= grip.shape.strings; ++string) {
        const auto& fret = grip.shape.on(string);
        if (!fret) continue;
        packed.strings = static_cast<std::uint8_t>(packed.strings | 1U << (string - 1));
        notes.add(fretboard.note({string, *fret}).number());
    }
    packed.voices = voices_of(notes);
    // Six bits say a cover, four a fret above the lowest: fifty in all, and eight for the strings.
    for (std::size_t i = 0; i < PackedGrip::fingers; ++i) {
        const auto above = packed.cover[i] == 0 ? 0U : static_cast<unsigned>(packed.fret[i] - low);
        packed.form =
            packed.form << 10U | static_cast<std::uint64_t>(packed.cover[i]) << 4U | above;
    }
    packed.form = packed.form << 8U | packed.strings;
    return packed;
}

Cost packed_reach(const PackedGrip& from, const PackedGrip& to, const WayIn& way_in) {
    const int hand = std::abs(to.hand - from.hand);
    Cost cost = string_set_cost(static_cast<unsigned>(from.strings ^ to.strings));
    bool guided = false;
    for (std::size_t i = 0; i < PackedGrip::fingers; ++i) {
        const auto finger = finger_reach(from.cover[i], from.fret[i], to.cover[i], to.fret[i]);
        cost += finger.cost;
        guided = guided || finger.guides;
    }
    cost += shift_cost(hand, way_in.haste, guided);
    if (from.form == to.form) cost = std::min(cost, whole_grip_cost(hand, way_in.haste));
    return cost + voices_cost(from.voices, to.voices) +
           line_cost(from.voices, to.voices, way_in.line) +
           held_cost(way_in.news, from.voices, to.voices,
                     static_cast<unsigned>(from.strings ^ to.strings));
}

}  // namespace compline::guitar
