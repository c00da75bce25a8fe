#include "../../src/guitar/ring.hpp"

#include "../../src/guitar/front.hpp"
#include "../../src/guitar/several_ways.hpp"
#include "../../src/guitar/stops.hpp"
#include "../../tools/plan.d/random_tune.hpp"
#include "support/catch.hpp"

#include <compline/guitar/effort.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <vector>

using namespace compline;
using guitar::Cost;
using guitar::Stop;

namespace {

const auto neck = guitar::Fretboard::standard();
const guitar::FingerTable table(neck.strings(), neck.frets());

/// A tune's stops, each cut down to a few grips by chance.
std::vector<Stop> few_grips(std::uint64_t seed, int bars, std::size_t most) {
    simulate::Chance chance(seed);
    guitar::VoicingWishes wishes;
    wishes.strings =
        chance.below(2) == 0 ? std::vector<int>{4, 3, 2} : std::vector<int>{6, 5, 4, 3};
    if (wishes.strings.size() == 4) wishes.style = guitar::VoicingStyle::shells;
    const auto form = plan_rivals::random_tune(seed, bars, bars > 3 ? 1 : 2);
    auto stops = guitar::stops_of(form, form.whole(), form.chart.tempo, neck, wishes).stops;
    for (auto& stop : stops) {
        std::set<std::uint32_t> ids;
        const std::size_t some = 1 + chance.below(most);
        for (std::size_t i = 0; i < some; ++i) {
            ids.insert(static_cast<std::uint32_t>(chance.below(stop.candidates->size())));
        }
        stop.ids.assign(ids.begin(), ids.end());
    }
    return stops;
}

/// What a way costs by the public functions, from grips as anybody sees them.
Cost plain_cost(const std::vector<Stop>& stops, const std::vector<std::uint32_t>& ids) {
    Cost cost = 0;
    for (std::size_t i = 0; i < stops.size(); ++i) {
        const std::size_t next = (i + 1) % stops.size();
        cost += stops[i].candidates->cost(ids[i]) +
                guitar::reach_cost(neck, stops[i].candidates->grip(ids[i]),
                                   stops[next].candidates->grip(ids[next]), stops[next].way_in);
    }
    return cost;
}

/// Every way there is.
template <typename Visit>
void for_all_ways(const std::vector<Stop>& stops, Visit visit) {
    std::vector<std::size_t> at(stops.size(), 0);
    std::vector<std::uint32_t> ids(stops.size());
    while (true) {
        for (std::size_t i = 0; i < stops.size(); ++i) ids[i] = stops[i].ids[at[i]];
        visit(ids);
        std::size_t i = 0;
        while (i < stops.size() && ++at[i] == stops[i].ids.size()) at[i++] = 0;
        if (i == stops.size()) return;
    }
}

}  // namespace

TEST_CASE("the best way round costs what the best of all ways costs, a thousand times",
          "[guitar]") {
    for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
        const auto stops = few_grips(seed, 1 + static_cast<int>(seed % 6), 4);
        Cost least = guitar::never;
        for_all_ways(stops, [&](const std::vector<std::uint32_t>& ids) {
            least = std::min(least, guitar::cost_of(stops, ids));
        });
        const auto way = guitar::best_way(table, stops);
        CAPTURE(seed);
        REQUIRE(way);
        REQUIRE(way->cost == least);
        REQUIRE(plain_cost(stops, way->ids) == least);
    }
}

TEST_CASE("the next best ways are the next best of all, no two with the same shapes", "[guitar]") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const auto stops = few_grips(seed, 1 + static_cast<int>(seed % 4), 4);
        std::map<std::vector<std::uint64_t>, Cost> by_shapes;
        for_all_ways(stops, [&](const std::vector<std::uint32_t>& ids) {
            std::vector<std::uint64_t> shapes;
            for (std::size_t i = 0; i < ids.size(); ++i) {
                shapes.push_back(stops[i].candidates->shape_key(ids[i]));
            }
            const auto known = by_shapes.find(shapes);
            const Cost cost = guitar::cost_of(stops, ids);
            if (known == by_shapes.end()) {
                by_shapes[shapes] = cost;
            } else {
                known->second = std::min(known->second, cost);
            }
        });
        std::vector<Cost> costs;
        for (const auto& [shapes, cost] : by_shapes) costs.push_back(cost);
        std::sort(costs.begin(), costs.end());
        costs.resize(std::min<std::size_t>(costs.size(), 5));
        std::vector<Cost> found;
        for (const auto& way : guitar::best_ways(table, stops, 5)) found.push_back(way.cost);
        CAPTURE(seed);
        REQUIRE(found == costs);
    }
}

// With all grips there are, where a walk skips most of them: against a walk that skips none.
TEST_CASE("nothing is lost by what is not looked at", "[guitar]") {
    guitar::VoicingWishes wishes;
    wishes.strings = {4, 3, 2};
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        const auto form = plan_rivals::random_tune(seed, 4, 1);
        const auto stops =
            guitar::stops_of(form, form.whole(), form.chart.tempo, neck, wishes).stops;
        // Every start in turn, plainly.
        Cost least = guitar::never;
        const auto first =
            static_cast<std::size_t>(std::min_element(stops.begin(), stops.end(),
                                                      [](const Stop& a, const Stop& b) {
                                                          return a.ids.size() < b.ids.size();
                                                      }) -
                                     stops.begin());
        const auto at = [&](std::size_t i) -> const Stop& {
            return stops[(first + i) % stops.size()];
        };
        for (const auto start : at(0).ids) {
            std::vector<Cost> costs(at(0).ids.size(), guitar::never);
            costs[start] = at(0).candidates->cost(start);
            for (std::size_t i = 1; i <= stops.size(); ++i) {
                std::vector<Cost> next(at(i).ids.size(), guitar::never);
                for (const auto to : at(i).ids) {
                    if (i == stops.size() && to != start) continue;
                    for (const auto from : at(i - 1).ids) {
                        if (costs[from] >= guitar::never) continue;
                        const Cost cost =
                            costs[from] + guitar::packed_reach(at(i - 1).candidates->packed(from),
                                                               at(i).candidates->packed(to),
                                                               at(i).way_in);
                        next[to] = std::min(next[to], cost);
                    }
                    if (i < stops.size()) next[to] += at(i).candidates->cost(to);
                }
                costs = std::move(next);
                if (i == 1 && *std::min_element(costs.begin(), costs.end()) >= least) break;
            }
            least = std::min(least, costs[start < costs.size() ? start : 0]);
        }
        const auto way = guitar::best_way(table, stops);
        CAPTURE(seed);
        REQUIRE(way);
        REQUIRE(way->cost == least);
    }
}

TEST_CASE("only a way below what is asked counts", "[guitar]") {
    const auto stops = few_grips(7, 4, 4);
    const auto way = guitar::best_way(table, stops);
    REQUIRE(way);
    CHECK_FALSE(guitar::best_way(table, stops, way->cost));
    REQUIRE(guitar::best_way(table, stops, way->cost + 1));
    CHECK(guitar::best_way(table, stops, way->cost + 1)->cost == way->cost);
}
