#include "simulate/taken.hpp"
#include "support/catch.hpp"

using namespace compline;
using simulate::Comping;
using simulate::Deed;
using simulate::Outcome;
using tests::Taken;
using time::Seconds;

namespace {

/// Takes in which that liberty was taken once, and the change it was taken on.
template <typename Visit>
void each_time(Deed deed, Visit visit) {
    const auto habits_of = [](std::uint64_t seed) {
        simulate::Habits habits;
        habits.comping = seed % 2 == 0 ? Comping::charleston : Comping::four_to_the_bar;
        habits.overlap = Seconds(0.04);
        if (seed % 3 == 0) habits.staccato = 0.3;
        return habits;
    };
    CHECK(tests::each_done(deed, 30, 120, habits_of, visit) >= 25);
}

Seconds beats(const Taken& taken, double count) { return taken.map.tempo().beat() * count; }

}  // namespace

TEST_CASE("a pushed chord comes on the off-beat before, and not again on the beat") {
    each_time(Deed::push, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK(*change.landing == taken.map.time_of(change.at - time::eighth_note));
        CHECK(change.landings.front() == Outcome::pushed);
        const auto due = taken.due(change);
        CHECK(taken.between(due - Seconds(0.01), due + beats(taken, 0.4)).empty());
    });
}

TEST_CASE("before a later entry the old chord is let go, and the new one comes on the grid") {
    each_time(Deed::later_entry, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK(change.landings.front() == Outcome::placed);
        CHECK(*change.beats_in > 0);
        CHECK_FALSE(taken.rings_at(taken.due(change) + Seconds(0.05)));
        CHECK(taken.between(taken.due(change), *change.landing).empty());
    });
}

TEST_CASE("of a chord laid out nothing is struck, and nothing rings") {
    each_time(Deed::laid_out, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK_FALSE(change.landing.has_value());
        CHECK_FALSE(taken.rings_at(taken.due(change)));
        CHECK(taken.between(taken.due(change), taken.until(i) - Seconds(0.001)).empty());
    });
}

TEST_CASE("a broken chord begins on the beat, goes string by string and rings together") {
    each_time(Deed::broken, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK(*change.landing == taken.due(change));
        auto notes = taken.between(*change.landing, taken.until(i));
        notes.erase(std::find_if(notes.begin(), notes.end(),
                                 [](const auto& s) { return s.shape.places().size() > 1; }),
                    notes.end());
        CHECK(notes.size() >= 3);
        for (std::size_t n = 0; n + 1 < notes.size(); ++n) {
            const auto gap = taken.on(notes[n + 1]) - taken.on(notes[n]);
            CHECK(gap >= Seconds(0.085));
            CHECK(gap < beats(taken, 1));
            CHECK(taken.off(notes[n]) > taken.on(notes.back()));
        }
    });
}

TEST_CASE("an up-stroke comes a moment before the stroke on the beat, with the same grip") {
    each_time(Deed::up_stroke, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK(*change.landing == taken.due(change));
        const auto before =
            taken.between(*change.landing - Seconds(0.141), *change.landing - Seconds(0.060));
        REQUIRE(before.size() == 1);
        CHECK(before[0].shape == taken.landing(change).shape);
        CHECK(before[0].per_string < Seconds(0));
    });
}

TEST_CASE("a lead-in is one low note before the chord") {
    each_time(Deed::lead_in, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto before = taken.between(taken.due(change) - beats(taken, 1.01),
                                          taken.due(change) - Seconds(0.02));
        REQUIRE_FALSE(before.empty());
        const auto places = before.back().shape.places();
        REQUIRE(places.size() == 1);
        CHECK(places[0].string >= 5);
    });
}

TEST_CASE("an approach is the whole grip a fret away") {
    each_time(Deed::approach, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto grip = taken.landing(change).shape;
        const auto before = taken.between(taken.due(change) - beats(taken, 1.01),
                                          taken.due(change) - Seconds(0.02));
        REQUIRE_FALSE(before.empty());
        const auto& near = before.back().shape;
        const int by = *near.on(grip.places()[0].string) - grip.places()[0].fret;
        CHECK(std::abs(by) == 1);
        for (const auto& place : grip.places()) CHECK(near.on(place.string) == place.fret + by);
    });
}

TEST_CASE("a passing chord leaves the chord on a weak place and comes back") {
    each_time(Deed::passing, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto grip = taken.landing(change).shape;
        const auto after = taken.between(*change.landing + Seconds(0.02), taken.until(i));
        REQUIRE(after.size() >= 2);
        CHECK(after[0].shape != grip);
        CHECK(after[0].at % time::Ticks(1920) != time::Ticks(0));
        CHECK(after[1].shape == grip);
        CHECK(taken.on(after[1]) - taken.on(after[0]) <= beats(taken, 1.001));
    });
}

TEST_CASE("a dead strum is too short to sound") {
    each_time(Deed::dead_strum, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        int dead = 0;
        for (const auto& strum : taken.between(*change.landing, taken.until(i)))
            dead += strum.length < Seconds(0.06) ? 1 : 0;
        // Four to the bar leaves no room between the beats at every tempo.
        CHECK(dead <= 1);
        if (taken.habits.comping == Comping::charleston) CHECK(dead == 1);
    });
}
