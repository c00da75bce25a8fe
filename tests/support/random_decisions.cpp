#include "support/random_decisions.hpp"

#include <algorithm>
#include <cmath>

namespace compline::tests {

namespace {

using roadmap::Decision;
using roadmap::RoadMap;
using time::Seconds;

int one_of(int least, int most, std::mt19937& chance) {
    return std::uniform_int_distribution<int>(least, most)(chance);
}

chart::Way random_way(const RoadMap& map, std::mt19937& chance) {
    const int last = static_cast<int>(map.form().bars.size());
    const int from = one_of(1, last, chance);
    return roadmap::Asked::of({from, one_of(from, last, chance)}, one_of(1, 3, chance)).way;
}

roadmap::WhoPlays random_players(std::mt19937& chance) {
    const auto some = [&] { return one_of(0, 1, chance) == 0; };
    const bool drums = some();
    return {drums, !drums || some(), some(), some()};
}

/// Until the count-in that ends it can be heard from its first click on.
Decision wait_until(const RoadMap& map, Seconds soon, std::mt19937& chance) {
    roadmap::Waited waited;
    waited.way = random_way(map, chance);
    const auto beat = map.tempo_at(map.end()).beat();
    const double over = std::max(0.0, (soon - map.time_of(map.end())).count() / beat.count());
    const auto& first = map.form().bar(waited.way.stretches.front().passage.from);
    const auto bar = std::ceil(time::Beats(first.meter.bar()).count());
    waited.beats = static_cast<int>(std::ceil(over) + bar) + one_of(0, 3, chance);
    return {map.decided().back().from_bar, waited};
}

}  // namespace

std::optional<Decision> random_decision(const RoadMap& map, Seconds now, std::mt19937& chance) {
    const auto& decided = map.decided();
    if (!decided.empty() && std::holds_alternative<roadmap::Paused>(decided.back().what)) {
        return wait_until(map, now + soonest, chance);
    }
    const auto place = map.place_at(now + soonest);
    // The count-in goes on in its own tempo.
    auto bar = std::max<std::int64_t>(2, place.before ? 1 : place.number + 1);
    if (one_of(0, 3, chance) == 0) bar += one_of(1, 2, chance);
    if (!decided.empty()) {
        const bool wait = std::holds_alternative<roadmap::Waited>(decided.back().what);
        bar = std::max(bar, decided.back().from_bar + (wait ? 1 : 0));
    }
    if (place.over || bar > map.bars().value_or(bar)) return std::nullopt;
    switch (one_of(0, 12, chance)) {
        case 0:
            return Decision{bar, roadmap::Stopped{}};
        case 1:
        case 2:
            return Decision{bar, roadmap::Paused{}};
        case 3:
        case 4:
        case 5:
            return Decision{bar, roadmap::NewWay{random_way(map, chance)}};
        case 6:
        case 7:
        case 8:
            return Decision{bar,
                            roadmap::LaysOut{random_players(chance), one_of(0, 1, chance) == 0}};
        default:
            return Decision{bar, roadmap::NewTempo{time::Bpm(one_of(60, 320, chance))}};
    }
}

}  // namespace compline::tests
