#include "simulate/taken.hpp"
#include "support/catch.hpp"

#include <compline/listen/listener.hpp>
#include <compline/simulate/hand_voicings.hpp>

#include <cmath>
#include <map>
#include <set>

using namespace compline;
using simulate::Comping;
using simulate::Habits;
using simulate::Outcome;
using tests::Taken;
using time::Seconds;

namespace {

Habits exact(Comping comping) {
    Habits habits;
    habits.comping = comping;
    habits.scatter = Seconds(0);
    return habits;
}

/// Where in the bar chords are struck, in eighths from 0, from the second bar on.
std::set<int> eighths(const Taken& taken, bool chords, std::size_t strings = 3) {
    std::set<int> found;
    const auto bar = taken.form.chart.meter.bar();
    for (const auto& strum : taken.tune.script) {
        const bool chord = strum.shape.places().size() >= strings;
        if (strum.at >= bar && chord == chords)
            found.insert(static_cast<int>((strum.at % bar).count() / 480));
    }
    return found;
}

template <typename Visit>
void each_manner(Visit visit) {
    for (int n = 0; n < simulate::comping_count; ++n) {
        INFO(simulate::name_of(static_cast<Comping>(n)));
        visit(static_cast<Comping>(n));
    }
}

}  // namespace

TEST_CASE("every manner of comping strikes where its name says") {
    const std::map<Comping, std::set<int>> chords = {{Comping::four_to_the_bar, {0, 2, 4, 6}},
                                                     {Comping::charleston, {0, 3}},
                                                     {Comping::pushes, {3, 7}},
                                                     {Comping::two_and_four, {2, 6}},
                                                     {Comping::off_beats, {1, 5}},
                                                     {Comping::long_chords, {0}},
                                                     {Comping::sparse, {0}},
                                                     {Comping::fills, {0}},
                                                     {Comping::chord_melody, {0}},
                                                     {Comping::bossa, {0, 3, 6}}};
    const auto form = tests::form_of("Dm7 | G7 | Cmaj7 | A7b9 | Dm9 | G13 | C6 | Em7b5");
    for (const auto& [comping, expected] : chords) {
        INFO(simulate::name_of(comping));
        const Taken taken(form, 120, 4, exact(comping), 1);
        auto found = eighths(taken, true);
        const auto singles = eighths(taken, false);
        // Above its bass note a bossa may have two strings.
        if (comping == Comping::bossa) found = eighths(taken, true, 2);
        CHECK(found == expected);
        if (comping == Comping::fills) CHECK(singles == std::set{3, 4, 5});
        if (comping == Comping::chord_melody) CHECK(singles == std::set{2, 4});
        if (comping == Comping::bossa) CHECK(singles.contains(4));
    }
}

TEST_CASE("in three, on 2 and 4 is on 2 and 3") {
    const auto form = tests::form_of("Dm7 | G7 | Cmaj7 | A7", "C", 3);
    CHECK(eighths(Taken(form, 150, 2, exact(Comping::two_and_four), 1), true) == std::set{2, 4});
}

TEST_CASE("who makes no mistakes has a clean truth, as his manner has it") {
    const std::map<Comping, Outcome> usual = {{Comping::pushes, Outcome::pushed},
                                              {Comping::two_and_four, Outcome::placed},
                                              {Comping::off_beats, Outcome::placed}};
    each_manner([&](Comping comping) {
        const Taken taken(tests::roomy(), 140, 2, exact(comping), 3);
        const auto landing = usual.contains(comping) ? usual.at(comping) : Outcome::on_time;
        for (const auto& change : taken.tune.changes) {
            INFO(change.time_through << " " << change.bar << " " << change.chord.symbol());
            CHECK_FALSE(change.deed.has_value());
            CHECK_FALSE(change.wrong.has_value());
            CHECK_FALSE(change.missing.has_value());
            if (change.after_nothing) continue;
            const bool rests = comping == Comping::sparse && !change.landing;
            CHECK(change.landings.front() == (rests ? Outcome::laid_out : landing));
            if (rests) continue;
            const auto grid = change.at + time::Ticks(std::llround(*change.beats_in * 960));
            CHECK(time::abs(*change.landing - taken.map.time_of(grid)) < Seconds(1e-9));
            // What lands it is a grip of its own.
            for (const int tone : tests::above_root(taken.landing(change).shape, change.chord))
                CHECK(simulate::sounds_of(change.chord).test(static_cast<std::size_t>(tone)));
        }
    });
}

TEST_CASE("a player who is sparse lays out a third of the chords, and then nothing rings") {
    const Taken taken(tests::roomy(), 140, 6, exact(Comping::sparse), 1);
    int out = 0;
    for (const auto& change : taken.tune.changes) {
        if (change.landing) continue;
        ++out;
        CHECK_FALSE(taken.rings_at(taken.due(change)));
    }
    const auto share = static_cast<double>(out) / static_cast<double>(taken.tune.changes.size());
    CHECK(share == Approx(1.0 / 3).margin(0.1));
}

TEST_CASE("the truth has every chord change of the road once, in order") {
    const auto form = tests::form_of("Dm7 G7 | C6 | C6 | Dm7 G7");
    const Taken taken(form, 120, 2, {}, 1);
    std::string said;
    for (const auto& change : taken.tune.changes) {
        said += std::to_string(change.time_through) + ":" + std::to_string(change.bar) + "." +
                std::to_string(static_cast<int>(change.beat.number())) + " " +
                change.chord.symbol() + ", ";
    }
    CHECK(said ==
          "1:1.1 Dm7, 1:1.3 G7, 1:2.1 C6, 1:4.1 Dm7, 1:4.3 G7, "
          "2:1.1 Dm7, 2:1.3 G7, 2:2.1 C6, 2:4.1 Dm7, 2:4.3 G7, ");
    // A chord that goes on over the seam is no change.
    CHECK(Taken(tests::form_of("C6 | Dm7 | C6"), 120, 2, {}, 1).tune.changes.size() == 5);
}

TEST_CASE("in N.C. nothing sounds") {
    const auto form = tests::form_of("Dm7 | G7 | N.C. | C6");
    each_manner([&](Comping comping) {
        auto habits = exact(comping);
        habits.overlap = Seconds(0.08);
        const Taken taken(form, 120, 3, habits, 1);
        for (int time = 0; time < 3; ++time) {
            const auto from = taken.map.time_of(form.length() * time + time::Ticks(2 * 3840));
            const auto bar = Seconds(2);
            CHECK(taken.between(from, from + bar - Seconds(0.3)).empty());
            CHECK_FALSE(taken.rings_at(from + Seconds(0.001)));
        }
    });
}

TEST_CASE("legato grips ring into the next by the overlap, staccato ones are cut short") {
    auto habits = exact(Comping::charleston);
    habits.overlap = Seconds(0.05);
    const Taken legato(tests::roomy(), 120, 1, habits, 1);
    const auto& script = legato.tune.script;
    for (std::size_t i = 0; i + 1 < script.size(); ++i)
        CHECK(legato.off(script[i]) == legato.on(script[i + 1]) + Seconds(0.05));
    habits.staccato = 0.4;
    const Taken staccato(tests::roomy(), 120, 1, habits, 1);
    for (const auto& strum : staccato.tune.script) CHECK(strum.length.count() == Approx(0.2));
}

TEST_CASE("a player's place is behind the beat, and the scatter about it as asked") {
    auto habits = exact(Comping::four_to_the_bar);
    habits.place = Seconds(0.02);
    habits.scatter = Seconds(0.015);
    const Taken taken(tests::roomy(), 100, 4, habits, 1);
    double sum = 0;
    double squares = 0;
    for (const auto& strum : taken.tune.script) {
        sum += strum.lateness.milliseconds();
        squares += std::pow(strum.lateness.milliseconds(), 2);
        CHECK(std::fabs(strum.lateness.milliseconds() - 20) < 40);
    }
    const auto count = static_cast<double>(taken.tune.script.size());
    CHECK(sum / count == Approx(20).margin(2.5));
    CHECK(std::sqrt(squares / count - std::pow(sum / count, 2)) == Approx(15).margin(1.5));
}

TEST_CASE("what is meant in time is in time at any tempo") {
    for (const double tempo : {70.0, 132.0, 200.0, 280.0}) {
        auto habits = exact(Comping::four_to_the_bar);
        habits.scatter = Seconds(0.025);
        const Taken taken(tests::roomy(), tempo, 2, habits, 1);
        const auto tolerance = tests::tolerance_of(taken.map);
        for (const auto& strum : taken.tune.script) CHECK(time::abs(strum.lateness) < tolerance);
    }
}

TEST_CASE("where the tempo changes the guitarist goes with it, and is told to be in time") {
    auto asked = roadmap::Asked::of(tests::roomy().whole(), 2);
    asked.tempo = time::Bpm(80);
    const auto bars = static_cast<std::int64_t>(tests::roomy().bars.size());
    const roadmap::RoadMap map(tests::roomy(), asked,
                               {{bars + 1, roadmap::NewTempo{time::Bpm(200)}}});
    auto habits = exact(Comping::four_to_the_bar);
    habits.staccato = 0.5;
    habits.scatter = Seconds(0.025);
    const auto tune = simulate::play(map, habits, 1);
    for (const auto& strum : tune.script) {
        const bool fast = strum.at >= map.start(2);
        CHECK(strum.length.count() == Approx(fast ? 0.15 : 0.375));
        CHECK(time::abs(strum.lateness).count() < (fast ? 0.030 : 0.060));
    }
    assess::Performance heard;
    heard.notes = listen::hear(simulate::perform(tune.script, map, guitar::Fretboard::standard()),
                               {}, map.time_of(map.end()))
                      .notes;
    const auto totals = assess::assess(map, heard, {}).totals;
    CHECK(totals.count(assess::Verdict::on_time) == totals.changes);
    CHECK(totals.right_tones == totals.changes);
}

TEST_CASE("the same seed is the same take, another seed another") {
    Habits habits;
    habits.rates.fill(0.05);
    const Taken once(tests::roomy(), 132, 2, habits, 5);
    const Taken again(tests::roomy(), 132, 2, habits, 5);
    const Taken other(tests::roomy(), 132, 2, habits, 6);
    REQUIRE(once.tune.script.size() == again.tune.script.size());
    bool differs = once.tune.script.size() != other.tune.script.size();
    for (std::size_t i = 0; i < once.tune.script.size(); ++i) {
        CHECK(once.tune.script[i].shape == again.tune.script[i].shape);
        CHECK(once.tune.script[i].lateness == again.tune.script[i].lateness);
        differs = differs || once.tune.script[i].lateness != other.tune.script[i].lateness;
    }
    CHECK(differs);
}

TEST_CASE("with a plan of voicings the guitarist plays the plan, repetitions and all") {
    const auto form = tests::form_of("Dm7 | G7 | Cmaj7 | A7");
    const auto plan = guitar::plan_voicings(form, form.whole(), time::Bpm(120),
                                            guitar::Fretboard::standard(), {});
    auto habits = exact(Comping::charleston);
    habits.voicings = &plan.front();
    const Taken taken(form, 120, 2, habits, 1);
    for (const auto& strum : taken.tune.script)
        CHECK(strum.shape == plan.front().at(strum.at % form.length())->grip.shape);
}
