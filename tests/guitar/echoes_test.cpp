#include "../../src/guitar/echoes.hpp"

#include "../../src/guitar/front.hpp"
#include "../../src/guitar/several_ways.hpp"
#include "../../tools/plan.d/random_tune.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"

#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <cstdint>
#include <set>
#include <string>
#include <vector>

using namespace compline;
using guitar::Echoes;
using guitar::Stop;
using guitar::Tune;

namespace {

const auto neck = guitar::Fretboard::standard();
const guitar::FingerTable table(neck.strings(), neck.frets());

Tune tune_of(const std::vector<std::string>& bars) {
    const auto form = tests::make_form(time::Meter{4}, time::Bpm(120), bars);
    return guitar::stops_of(form, form.whole(), form.chart.tempo, neck, {});
}

Echoes echoes(const Tune& tune) { return guitar::echoes_of(tune, time::Meter{4}); }

/// A few grips of each stop, the same for chords that are the same.
std::vector<Stop> few_grips(const Tune& tune, const Echoes& echoes, std::uint64_t seed) {
    simulate::Chance chance(seed);
    auto stops = tune.stops;
    for (std::size_t j = 0; j < stops.size(); ++j) {
        if (echoes[j] != j) {
            stops[j].ids = stops[echoes[j]].ids;
            continue;
        }
        std::set<std::uint32_t> ids;
        for (int i = 0; i < 3; ++i) {
            ids.insert(static_cast<std::uint32_t>(chance.below(stops[j].candidates->size())));
        }
        stops[j].ids.assign(ids.begin(), ids.end());
    }
    return stops;
}

}  // namespace

TEST_CASE("a stretch of four bars that comes back is an echo, but for its first chord",
          "[guitar]") {
    const auto tune = tune_of({"Dm7", "G7", "Cmaj7", "Em7", "Fm7", "Dm7", "G7", "Cmaj7", "Em7"});
    CHECK(echoes(tune) == Echoes{0, 1, 2, 3, 4, 5, 1, 2, 3});
}

TEST_CASE("three bars are no stretch, nor are four with another chord or rhythm in them",
          "[guitar]") {
    const auto free = [](const std::vector<std::string>& bars) {
        const auto found = echoes(tune_of(bars));
        for (std::size_t j = 0; j < found.size(); ++j) {
            if (found[j] != j) return false;
        }
        return true;
    };
    CHECK(free({"Dm7", "G7", "Cmaj7", "Fm7", "Dm7", "G7", "Cmaj7"}));
    CHECK(free({"Dm7", "G7", "Cmaj7", "Em7", "Dm7", "G7", "C6", "Em7"}));
    CHECK(free({"Dm7 G7", "Cmaj7", "%", "Em7", "Dm7", "G7", "Cmaj7", "Em7"}));
    // The same dominant that leads elsewhere may have other tones.
    CHECK(free({"Dm7", "G7", "Cmaj7", "A7", "Fm7", "Dm7", "G7", "Cmaj7", "A7"}));
    CHECK_FALSE(free({"Dm7", "G7", "Cmaj7", "Em7", "Dm7", "G7", "Cmaj7", "Em7"}));
}

TEST_CASE("a third time echoes the first", "[guitar]") {
    const auto tune = tune_of({"Dm7", "G7", "Cmaj7", "Em7", "Fm7", "Dm7", "G7", "Cmaj7", "Em7",
                               "Bbm7", "Dm7", "G7", "Cmaj7", "Em7"});
    CHECK(echoes(tune) == Echoes{0, 1, 2, 3, 4, 5, 1, 2, 3, 9, 10, 1, 2, 3});
}

TEST_CASE("an echo has the grips that it echoes, and what is free is the best there is around it",
          "[guitar]") {
    const auto tune = tune_of({"Dm7", "G7", "Cmaj7", "Em7", "Fm7", "Dm7", "G7", "Cmaj7", "Em7"});
    const auto tied = echoes(tune);
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const auto stops = few_grips(tune, tied, seed);
        const auto way = guitar::best_echoing_way(table, stops, tied);
        REQUIRE(way);
        for (std::size_t j = 0; j < tied.size(); ++j) CHECK(way->ids[j] == way->ids[tied[j]]);
        CHECK(way->cost == guitar::cost_of(stops, way->ids));
        CHECK(way->cost >= guitar::best_way(table, stops)->cost);
        // All ways with the same echoed grips: none costs less.
        auto least = guitar::never;
        for (const auto a : stops[0].ids) {
            for (const auto b : stops[4].ids) {
                for (const auto c : stops[5].ids) {
                    auto ids = way->ids;
                    ids[0] = a;
                    ids[4] = b;
                    ids[5] = c;
                    least = std::min(least, guitar::cost_of(stops, ids));
                }
            }
        }
        CHECK(way->cost == least);
    }
}

TEST_CASE("where nothing comes back the best way is the best of all", "[guitar]") {
    const auto tune = tune_of({"Dm7", "G7", "Cmaj7", "A7b9"});
    const auto free = guitar::best_way(table, tune.stops);
    CHECK(guitar::best_echoing_way(table, tune.stops, echoes(tune))->ids == free->ids);
    CHECK(guitar::best_echoing_way(table, tune.stops, {})->ids == free->ids);
}

TEST_CASE("other plans keep what comes back alike too", "[guitar]") {
    const auto form =
        tests::make_form(time::Meter{4}, time::Bpm(120),
                         {"Dm7", "G7", "Cmaj7", "Em7", "Fm7", "Bb7", "Dm7", "G7", "Cmaj7", "Em7"});
    const auto plans = guitar::plan_voicings(form, form.whole(), time::Bpm(120), neck, {}, 8);
    CHECK(plans.size() == 8);
    for (const auto& plan : plans) {
        for (std::size_t i = 1; i < 4; ++i) {
            CHECK(plan.voicings[i].grip == plan.voicings[i + 6].grip);
        }
    }
    for (std::size_t i = 1; i < plans.size(); ++i) CHECK(plans[i - 1].cost() <= plans[i].cost());
}

// Near the best plan the places of a stretch may have no grip in common.
TEST_CASE("twenty-one plans in one colour of each tune of ours keep what comes back alike",
          "[guitar]") {
    guitar::VoicingWishes wishes;
    wishes.style = guitar::VoicingStyle::one_colour;
    for (const auto& form : tests::our_forms()) {
        const auto tempo = form.chart.tempo;
        const auto tune = guitar::stops_of(form, form.whole(), tempo, neck, wishes);
        const auto alike = guitar::echoes_of(tune, form.chart.meter);
        const auto ways = guitar::best_ways(table, tune.stops, 21, alike);
        CAPTURE(form.chart.title);
        CHECK(ways.size() == 21);
        std::set<std::vector<std::uint32_t>> distinct;
        for (const auto& way : ways) {
            distinct.insert(way.ids);
            for (std::size_t j = 0; j < alike.size(); ++j) {
                CHECK(way.ids[j] == way.ids[alike[j]]);
            }
        }
        CHECK(distinct.size() == ways.size());
    }
}
