#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <compline/simulate/played.hpp>

#include <set>

using namespace compline;
using simulate::Deed;
using simulate::PlayedChange;
using Strikes = simulate::Planted::Strikes;

// A habit of the simulated guitarist strikes where it should and nowhere else.

namespace {

std::vector<PlayedChange> played_with(const simulate::Habits& habits, std::uint64_t seed = 1) {
    auto form = tests::our_forms().front();
    auto asked = roadmap::Asked::of(form.whole(), 6);
    asked.tempo = time::Bpm(120);
    return simulate::play({std::move(form), asked}, habits, seed).changes;
}

std::vector<PlayedChange> planted(Strikes strikes, Deed deed = Deed::late, double rate = 1) {
    simulate::Habits habits;
    habits.planted = {strikes, deed, rate};
    return played_with(habits);
}

/// What the changes that it struck have in common.
template <typename Of>
auto in_common(const std::vector<PlayedChange>& changes, Of of) {
    std::set<decltype(of(changes.front()))> values;
    for (const auto& change : changes) {
        if (change.planted) values.insert(of(change));
    }
    return values;
}

int count(const std::vector<PlayedChange>& changes) {
    return static_cast<int>(std::count_if(changes.begin(), changes.end(),
                                          [](const PlayedChange& c) { return c.planted; }));
}

}  // namespace

TEST_CASE("a place goes wrong each time through, and nothing else does") {
    const auto changes = planted(Strikes::at_one_place);
    CHECK(count(changes) >= 5);
    CHECK(in_common(changes, [](const PlayedChange& c) { return c.bar; }).size() == 1);
    for (const auto& change : changes) CHECK((change.deed == Deed::late) == change.planted);
}

TEST_CASE("a transition goes wrong at more than one place") {
    const auto changes = planted(Strikes::on_a_transition);
    CHECK(count(changes) >= 10);
    CHECK(in_common(changes, [](const PlayedChange& c) { return c.bar; }).size() >= 2);
    CHECK(in_common(changes, [](const PlayedChange& c) { return c.chord.symbol(); }).size() == 1);
}

TEST_CASE("at half the rate a habit strikes about half of the times") {
    const int all = count(planted(Strikes::into_sections));
    const int half = count(planted(Strikes::into_sections, Deed::late, 0.5));
    REQUIRE(all >= 8);
    CHECK(half > 0.2 * all);
    CHECK(half < 0.8 * all);
}

TEST_CASE("a finger that slips on one string slips on no other") {
    simulate::Habits habits;
    habits.planted = {Strikes::anywhere, Deed::wrong_fret, 0.3};
    habits.slips_on = 3;
    const auto changes = played_with(habits);
    REQUIRE(count(changes) >= 5);
    for (const auto& change : changes) {
        if (change.planted) CHECK(change.words.find("string 3 a fret too") != std::string::npos);
    }
}
