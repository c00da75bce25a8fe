#include "packed_grip.hpp"

#include <compline/guitar/hand.hpp>
#include <compline/guitar/likely_fingers.hpp>

#include <cstddef>

namespace compline::guitar {

namespace {

/// A way to finger a shape, and what the best way here costs.
struct WayToHold {
    Grip grip;
    PackedGrip packed;
    Cost cost = 0;
    std::size_t before = 0;  ///< the fingering of the shape before that it comes from
};

using WaysToHold = std::vector<WayToHold>;

/// It was played: whether a pick could is no question any more.
std::vector<Grip> ways_to_hold(const Fretboard& fretboard, const Shape& shape) {
    auto grips = fingerings(shape, {false, RightHand::fingers}, fretboard.capo());
    if (!grips.empty()) return grips;
    return fingerings(shape, {true, RightHand::fingers}, fretboard.capo());
}

WaysToHold ways_to(const Fretboard& fretboard, const Shape& shape) {
    WaysToHold ways;
    for (const auto& grip : ways_to_hold(fretboard, shape)) {
        ways.push_back({grip, pack(fretboard, grip), comfort_cost(grip, fretboard.capo())});
    }
    return ways;
}

void lead(const WaysToHold& before, WaysToHold& ways) {
    for (auto& here : ways) {
        std::optional<Cost> least;
        for (std::size_t i = 0; i < before.size(); ++i) {
            const Cost cost = before[i].cost + packed_reach(before[i].packed, here.packed, {});
            if (least && *least <= cost) continue;
            least = cost;
            here.before = i;
        }
        here.cost += least.value_or(0);
    }
}

std::size_t cheapest(const WaysToHold& ways) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < ways.size(); ++i) {
        if (ways[i].cost < ways[best].cost) best = i;
    }
    return best;
}

}  // namespace

std::vector<std::optional<Grip>> likely_fingers(const Fretboard& fretboard,
                                                const std::vector<std::optional<Shape>>& shapes) {
    std::vector<WaysToHold> all;
    for (const auto& shape : shapes) {
        auto ways = shape ? ways_to(fretboard, *shape) : WaysToHold();
        if (!all.empty() && !all.back().empty()) lead(all.back(), ways);
        all.push_back(std::move(ways));
    }
    std::vector<std::optional<Grip>> grips(shapes.size());
    std::optional<std::size_t> chosen;  // by the shape behind
    for (std::size_t i = all.size(); i-- > 0;) {
        const auto& ways = all[i];
        if (ways.empty()) {
            chosen.reset();
            continue;
        }
        const auto& one = ways[chosen.value_or(cheapest(ways))];
        grips[i] = one.grip;
        chosen = one.before;
    }
    return grips;
}

}  // namespace compline::guitar
