#include "simulate/taken.hpp"
#include "support/catch.hpp"

#include <compline/simulate/hand_voicings.hpp>

using namespace compline;
using simulate::Comping;
using simulate::Deed;
using simulate::Outcome;
using tests::Taken;
using time::Seconds;

namespace {

constexpr Deed mistakes[] = {Deed::late,       Deed::early,        Deed::wrong_third,
                             Deed::wrong_fret, Deed::stuck_finger, Deed::missing_seventh,
                             Deed::missed};

/// Takes in several manners in which that deed was done once, and the change it was done on.
template <typename Visit>
int each_time(Deed deed, Visit visit) {
    const auto habits_of = [](std::uint64_t seed) {
        simulate::Habits habits;
        habits.comping = static_cast<Comping>(seed % simulate::comping_count);
        return habits;
    };
    return tests::each_done(deed, 40, 132, habits_of, visit);
}

bool has(const std::vector<int>& tones, int tone) {
    return std::find(tones.begin(), tones.end(), tone) != tones.end();
}

std::ptrdiff_t foreign_tones(const guitar::Shape& shape, const harmony::Chord& chord) {
    const auto tones = tests::above_root(shape, chord);
    const auto sounds = simulate::sounds_of(chord);
    return std::count_if(tones.begin(), tones.end(),
                         [&](int tone) { return !sounds.test(static_cast<std::size_t>(tone)); });
}

/// The grip that was struck before a change.
guitar::Shape old_grip(const Taken& taken, std::size_t i) {
    return taken.landing(taken.tune.changes.at(i - 1)).shape;
}

}  // namespace

TEST_CASE("every mistake is made when it is asked for once, and no other") {
    for (const auto deed : mistakes) {
        INFO(simulate::name_of(deed));
        CHECK(each_time(deed, [](const Taken& taken, std::size_t) {
                  const auto& changes = taken.tune.changes;
                  CHECK(std::count_if(changes.begin(), changes.end(),
                                      [](const auto& change) { return change.deed; }) == 1);
              }) >= (deed == Deed::early ? 10 : 30));
    }
}

TEST_CASE("a late chord lands plainly after its time") {
    each_time(Deed::late, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto least = tests::tolerance_of(taken.map) + Seconds(0.06);
        CHECK(*change.landing - taken.due(change) >= least);
        CHECK(*change.landing < taken.until(i));
        CHECK(change.landings == std::vector{Outcome::late});
        CHECK(taken.between(taken.due(change), *change.landing).empty());
    });
}

TEST_CASE("an early chord lands neither on the beat nor where pushes are") {
    each_time(Deed::early, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto early = taken.due(change) - *change.landing;
        const auto tolerance = tests::tolerance_of(taken.map);
        const auto swung = taken.due(change) - taken.map.time_of(change.at - time::eighth_note);
        const auto straight = taken.map.tempo().beat() * 0.5;
        CHECK(early > tolerance);
        CHECK((early < swung - tolerance || early > straight + tolerance));
    });
}

TEST_CASE("a wrong third sounds in the place of the right one") {
    each_time(Deed::wrong_third, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto tones = tests::above_root(taken.landing(change).shape, change.chord);
        CHECK(has(tones, 3) != has(tones, 4));
        const int wrong = (change.wrong->pitch_class() - change.chord.root.pitch_class() + 12) % 12;
        CHECK(has(tones, wrong));
        CHECK_FALSE(simulate::sounds_of(change.chord).test(static_cast<std::size_t>(wrong)));
    });
}

TEST_CASE("a wrong fret is one finger a fret off, and one foreign tone") {
    each_time(Deed::wrong_fret, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK(foreign_tones(taken.landing(change).shape, change.chord) == 1);
    });
}

TEST_CASE("a stuck finger is where it was on the chord before") {
    each_time(Deed::stuck_finger, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto shape = taken.landing(change).shape;
        const auto before = old_grip(taken, i);
        int stuck = 0;
        for (const auto& place : shape.places()) {
            const auto note = guitar::Fretboard::standard().note(place);
            if (note == *change.wrong && before.on(place.string) == place.fret) ++stuck;
        }
        CHECK(stuck == 1);
        // The other fingers reach their places.
        int low = 24;
        int high = 0;
        for (const auto& place : shape.places()) {
            low = std::min(low, place.fret);
            high = std::max(high, place.fret);
        }
        CHECK(high - low <= 4);
    });
}

TEST_CASE("a missing seventh is missing for as long as the chord lasts") {
    each_time(Deed::missing_seventh, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        const auto beat = taken.map.tempo().beat();
        const auto struck = taken.between(*change.landing, taken.until(i) - beat);
        REQUIRE_FALSE(struck.empty());
        for (const auto& strum : struck)
            CHECK_FALSE(has(tests::above_root(strum.shape, change.chord), *change.missing));
    });
}

TEST_CASE("of a missed chord only the old one is struck, and it sounds wrong") {
    each_time(Deed::missed, [](const Taken& taken, std::size_t i) {
        const auto& change = taken.tune.changes[i];
        CHECK_FALSE(change.landing.has_value());
        const auto before = old_grip(taken, i);
        const auto beat = taken.map.tempo().beat();
        const auto struck = taken.between(taken.due(change), taken.until(i) - beat * 0.6);
        CHECK_FALSE(struck.empty());
        for (const auto& strum : struck) {
            for (const auto& place : strum.shape.places()) {
                const bool held = before.on(place.string) == place.fret;
                // A thumb plays the fifth on the string beside.
                CHECK((held || strum.shape.places().size() == 1));
            }
        }
    });
}

TEST_CASE("a mistake has a simply played change on either side") {
    simulate::Habits habits;
    habits.rates.fill(0.2);
    habits.rate(Deed::lost) = 0;
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        const Taken taken(tests::roomy(), 132, 2, habits, seed);
        const auto& changes = taken.tune.changes;
        int done = 0;
        for (std::size_t i = 0; i + 1 < changes.size(); ++i) {
            CHECK_FALSE((changes[i].deed && changes[i + 1].deed));
            done += changes[i].deed ? 1 : 0;
        }
        CHECK(done > 10);
    }
}

TEST_CASE("who is lost plays other chords of the form for some changes, and finds home again") {
    simulate::Habits habits;
    habits.rate(Deed::lost) = 1;
    int lost = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const Taken taken(tests::roomy(), 132, 2, habits, seed);
        for (std::size_t i = 0; i < taken.tune.changes.size(); ++i) {
            const auto& change = taken.tune.changes[i];
            if (change.deed != Deed::lost) continue;
            ++lost;
            INFO("seed " << seed << " bar " << change.bar << " " << change.words);
            CHECK(change.landings.front() == Outcome::astray);
            const auto beat = taken.map.tempo().beat();
            const auto from = taken.due(change) - beat * 0.1;
            for (const auto& strum : taken.between(from, taken.until(i) - beat * 0.6)) {
                CHECK(foreign_tones(strum.shape, change.chord) > 0);
            }
        }
        CHECK_FALSE(taken.tune.changes.back().deed.has_value());
    }
    CHECK(lost > 40);
}

TEST_CASE("who waits at one place comes in a beat later there each time, and nowhere else") {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        simulate::Habits habits;
        habits.waits = simulate::Waits::at_one_place;
        const Taken taken(tests::roomy(), 132, 4, habits, seed);
        std::vector<int> bars;
        for (const auto& change : taken.tune.changes) {
            if (!change.deed) continue;
            CHECK(*change.deed == Deed::wait);
            CHECK(change.beats_in == 1.0);
            CHECK(change.landings == std::vector{Outcome::placed});
            bars.push_back(change.bar);
        }
        INFO("seed " << seed);
        CHECK((bars.empty() || std::count(bars.begin(), bars.end(), bars[0]) ==
                                   static_cast<std::ptrdiff_t>(bars.size())));
        if (!bars.empty()) CHECK(bars.size() >= 3);
    }
}

TEST_CASE("a slow hand is late after wide moves, after fills or into sections, and says why") {
    simulate::Habits habits;
    habits.comping = Comping::fills;
    habits.slow.into_sections = true;
    int late = 0;
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        const Taken taken(tests::roomy(), 132, 2, habits, seed);
        for (const auto& change : taken.tune.changes) {
            if (change.deed != Deed::late) continue;
            ++late;
            CHECK(taken.form.bar(change.bar).bar_in_section == 1);
            CHECK(change.words.find("a new section") != std::string::npos);
        }
    }
    CHECK(late > 10);
}
