// The evenings of a place: what its picture is drawn from.

#include "history/weeks.hpp"
#include "support/catch.hpp"

#include <compline/history/evenings.hpp>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

std::vector<double> shares(const std::vector<TrendPoint>& points) {
    std::vector<double> values;
    for (const auto& point : points) values.push_back(point.value);
    return values;
}

}  // namespace

TEST_CASE("a place's evenings are those of its bar, its beat and its chords alone", "[history]") {
    Weeks weeks;
    weeks.on(0, {{3, 4, 1}, {3, 4, 4}, {5, 4, 4}, {3, 4, 4, "Dm7", "Db7"}, {3, 4, 4, "A7", "G7"}});
    weeks.on(1, {{3, 4, 3}});
    weeks.it.places[1].beat = time::BeatOfBar(3);
    PlaceStory place;
    place.bar = 3;
    place.from = "Dm7";
    place.to = "G7";
    CHECK(shares(evenings_of(weeks.it, place)) == std::vector{0.25, 0.75});
    CHECK(shares(evenings_of(weeks.it, place, Weeks::day(1))) == std::vector{0.75});
    place.beat = time::BeatOfBar(3);
    CHECK(shares(evenings_of(weeks.it, place)) == std::vector{1.0});
}
