#include "bass_contour.hpp"

#include <compline/band/walk.hpp>

#include <algorithm>

namespace compline::band {

using time::Ticks;

Contour::Contour(KeyedChance chance, int start, Ticks length, Ticks beat) {
    static constexpr int shortest = 6;  // beats one way
    static constexpr int more = 7;      // and chance adds 0 to 6
    static constexpr int lowest = settled_low.number();
    static constexpr int highest = settled_high.number() - 1;
    static constexpr int spread = 6;
    points_.push_back({Ticks(0), std::clamp(start, lowest, highest)});
    bool up = 2 * start < lowest + highest;
    for (int i = 0; points_.back().at < length; ++i) {
        const auto turn = chance.of(static_cast<std::uint64_t>(i));
        const Ticks at = points_.back().at + beat * (shortest + turn.of(0).below(more));
        const int inwards = turn.of(1).below(spread);
        points_.push_back({at, up ? highest - inwards : lowest + inwards});
        up = !up;
    }
}

int Contour::at(Ticks position) const {
    const auto after = std::find_if(points_.begin(), points_.end(),
                                    [&](const ContourPoint& point) { return point.at > position; });
    if (after == points_.end()) return points_.back().height;
    const auto& to = *after;
    const auto& from = *(after - 1);
    const auto share = (position - from.at).count() * (to.height - from.height);
    return from.height + static_cast<int>(share / (to.at - from.at).count());
}

}  // namespace compline::band
