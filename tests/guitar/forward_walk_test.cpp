#include "../../src/guitar/forward_walk.hpp"

#include "../../src/guitar/closing.hpp"
#include "../../src/guitar/stops.hpp"
#include "../../tools/plan.d/random_tune.hpp"
#include "support/catch.hpp"

#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

using namespace compline;
using guitar::Cost;
using guitar::Direction;
using guitar::ForwardWalk;
using guitar::Known;
using guitar::Stop;

namespace {

const auto neck = guitar::Fretboard::standard();
const guitar::FingerTable table(neck.strings(), neck.frets());

std::vector<Stop> stops_on(const std::vector<int>& strings, std::uint64_t seed, int bars) {
    guitar::VoicingWishes wishes;
    wishes.strings = strings;
    const auto form = plan_rivals::random_tune(seed, bars, 1);
    return guitar::stops_of(form, form.whole(), form.chart.tempo, neck, wishes).stops;
}

Cost reach(const Stop& from, std::uint32_t a, const Stop& to, std::uint32_t b) {
    return guitar::packed_reach(from.candidates->packed(a), to.candidates->packed(b), to.way_in);
}

/// What the best way to each grip of each stop costs, and back to each of the first, every pair of
/// grips looked at.
std::vector<std::vector<Cost>> plainly(const std::vector<Stop>& stops) {
    std::vector<std::vector<Cost>> costs(stops.size() + 1);
    for (const auto id : stops[0].ids) costs[0].push_back(stops[0].candidates->cost(id));
    for (std::size_t j = 1; j <= stops.size(); ++j) {
        const auto& from = stops[j - 1];
        const auto& to = stops[j % stops.size()];
        for (const auto b : to.ids) {
            Cost least = guitar::never;
            for (std::size_t i = 0; i < from.ids.size(); ++i) {
                least = std::min(least, costs[j - 1][i] + reach(from, from.ids[i], to, b));
            }
            costs[j].push_back(least + (j < stops.size() ? to.candidates->cost(b) : 0));
        }
    }
    return costs;
}

}  // namespace

TEST_CASE("a search finds what it costs to ask every grip, forward and backward", "[guitar]") {
    simulate::Chance chance(1);
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        const auto stops = stops_on({4, 3, 2}, seed, 2);
        const auto& from = stops[0];
        const auto& to = stops[1];
        std::vector<Known> knowns;
        for (std::size_t i = 0; i < from.ids.size(); ++i) {
            knowns.push_back({static_cast<Cost>(chance.below(500)), true});
        }
        // From the calmest to the most hurried, where even a whole grip that slides is dear.
        guitar::WayIn way_in{static_cast<int>(51 + 20 * seed)};
        way_in.line =
            std::array{guitar::Line::free, guitar::Line::up, guitar::Line::down}[seed % 3];
        way_in.news = seed % 2 == 0;
        for (const auto direction : {Direction::forward, Direction::backward}) {
            const guitar::Front front(table, *from.candidates, from.ids.list(), knowns);
            guitar::FrontSearch search(front, way_in, direction);
            for (const auto id : to.ids) {
                const auto& grip = to.candidates->packed(id);
                Cost least = guitar::never;
                for (std::size_t i = 0; i < from.ids.size(); ++i) {
                    const auto& other = from.candidates->packed(from.ids[i]);
                    const Cost move = direction == Direction::forward
                                          ? guitar::packed_reach(other, grip, way_in)
                                          : guitar::packed_reach(grip, other, way_in);
                    least = std::min(least, knowns[i].cost + move);
                }
                CAPTURE(seed, id);
                REQUIRE(search.find(grip).cost == least);
                REQUIRE(search.find(grip, least).cost == guitar::never);
                REQUIRE(search.find(grip, least + 1).cost == least);
            }
        }
    }
}

TEST_CASE("of moves that cost the same a search finds one from an exactly known grip", "[guitar]") {
    simulate::Chance chance(1);
    int ties = 0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        const auto stops = stops_on({4, 3, 2}, seed, 2);
        const auto& from = stops[0];
        const auto& to = stops[1];
        std::vector<Known> knowns;
        for (std::size_t i = 0; i < from.ids.size(); ++i) {
            knowns.push_back({static_cast<Cost>(5 * chance.below(20)), chance.below(2) == 0});
        }
        const guitar::Front front(table, *from.candidates, from.ids.list(), knowns);
        guitar::FrontSearch search(front, to.way_in, Direction::forward);
        for (const auto id : to.ids) {
            Known least;
            Cost not_exact = guitar::never;
            for (std::size_t i = 0; i < from.ids.size(); ++i) {
                const Cost cost = knowns[i].cost + reach(from, from.ids[i], to, id);
                if (!knowns[i].exact) not_exact = std::min(not_exact, cost);
                if (knowns[i].exact) least.cost = std::min(least.cost, cost);
            }
            ties += least.cost == not_exact ? 1 : 0;
            least.exact = least.cost <= not_exact;
            CAPTURE(seed, id);
            CHECK(search.find(to.candidates->packed(id)).exact == least.exact);
        }
    }
    CHECK(ties > 10);
}

TEST_CASE("a search also finds a grip that slides as it is, however far and fast", "[guitar]") {
    const auto stops = stops_on({4, 3, 2}, 3, 1);
    const auto& candidates = *stops[0].candidates;
    constexpr guitar::WayIn most_hurried{160};
    for (const auto a : stops[0].ids) {
        const guitar::Front front(table, candidates, {a}, {{0, true}});
        guitar::FrontSearch search(front, most_hurried, Direction::forward);
        for (const auto b : stops[0].ids) {
            REQUIRE(search.find(candidates.packed(b)).cost ==
                    guitar::packed_reach(candidates.packed(a), candidates.packed(b), most_hurried));
        }
    }
}

// With all grips there are, most of which the walk does not look at.
TEST_CASE("the walk's best way is the best there is, and nothing costs less than it says",
          "[guitar]") {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        const auto stops = stops_on({4, 3, 2}, seed, 12);
        const auto plain = plainly(stops);
        const ForwardWalk walk(table, stops);
        CAPTURE(seed);
        REQUIRE(walk.least() == *std::min_element(plain.back().begin(), plain.back().end()));
        for (std::size_t j = 0; j < plain.size(); ++j) {
            for (std::size_t i = 0; i < plain[j].size(); ++i) {
                REQUIRE(walk.to(j, i) <= plain[j][i]);
            }
        }
        const auto way = walk.way();
        Cost cost = 0;
        for (std::size_t j = 0; j < way.size(); ++j) {
            const auto& stop = stops[j];
            const auto& next = stops[(j + 1) % stops.size()];
            const auto to = j + 1 < way.size() ? way[j + 1] : walk.end();
            cost += stop.candidates->cost(way[j]) + reach(stop, way[j], next, to);
        }
        REQUIRE(cost == walk.least());
    }
}

TEST_CASE("bounds that are too tight are loosened until the way is exact", "[guitar]") {
    constexpr Cost hardly_any = 1;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        const auto stops = stops_on({4, 3, 2}, seed, 12);
        CAPTURE(seed);
        REQUIRE(ForwardWalk(table, stops, hardly_any).least() == ForwardWalk(table, stops).least());
    }
}

TEST_CASE("what closes a ring keeps every grip through which a way below the limit leads",
          "[guitar]") {
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
        const auto stops = stops_on({4, 3, 2}, seed, 8);
        const auto there = plainly(stops);
        const ForwardWalk walk(table, stops);
        const Cost limit = walk.least() + 100;
        const guitar::Closing closing(table, stops, walk, limit);
        // What is still to be paid behind each grip, every pair looked at.
        std::vector<Cost> ahead(stops[0].ids.size(), 0);
        for (std::size_t j = stops.size(); j-- > 0;) {
            const auto& stop = stops[j];
            const auto& next = stops[(j + 1) % stops.size()];
            std::vector<Cost> here;
            for (std::size_t i = 0; i < stop.ids.size(); ++i) {
                Cost least = guitar::never;
                for (std::size_t k = 0; k < next.ids.size(); ++k) {
                    least = std::min(least, reach(stop, stop.ids[i], next, next.ids[k]) + ahead[k]);
                }
                const auto& left = closing.left()[j];
                const bool is_left =
                    std::binary_search(left.ids.begin(), left.ids.end(), stop.ids[i]);
                CAPTURE(seed, j, i);
                if (there[j][i] + least < limit) REQUIRE(is_left);
                if (is_left)
                    REQUIRE(left.costs[guitar::place_in(left.ids, stop.ids[i])].cost >= least);
                here.push_back(least + stop.candidates->cost(stop.ids[i]));
            }
            ahead = here;
        }
    }
}
