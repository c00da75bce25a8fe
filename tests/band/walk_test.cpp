#include "support/catch.hpp"

#include <compline/band/walk.hpp>
#include <compline/sound/noise.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>

using namespace compline;
using band::Choice;
using band::LineNote;
using band::Stall;
using band::Step;
using harmony::MidiNote;

namespace {

std::vector<int> numbers(const std::vector<Choice>& line) {
    std::vector<int> result;
    for (const auto& choice : line) result.push_back(choice.note.number());
    return result;
}

Step step(const std::vector<int>& notes, band::Reach reach = band::anywhere) {
    Step step;
    for (const int note : notes) step.choices.push_back({MidiNote(note), 0, reach});
    return step;
}

std::vector<Step> steps(const std::vector<std::vector<int>>& all) {
    std::vector<Step> result;
    for (const auto& notes : all) result.push_back(step(notes));
    return result;
}

/// Walking notes one after the other, four a bar.
std::vector<LineNote> heard(const std::vector<int>& notes) {
    std::vector<LineNote> line;
    for (const int note : notes) {
        line.push_back({note, static_cast<std::int64_t>(line.size() / 4), true, false, true});
    }
    return line;
}

}  // namespace

TEST_CASE("a walk through no steps is no line, and one step is its cheapest note") {
    CHECK(band::walk({}).empty());
    Step one = step({41, 43, 45});
    one.choices[0].cost = 2;
    one.choices[2].cost = 1;
    CHECK(numbers(band::walk({one})) == std::vector<int>{43});
}

TEST_CASE("a walk takes the nearer octave and does not strike a note twice") {
    CHECK(numbers(band::walk(steps({{41}, {31, 43, 55}, {33, 45}}))) ==
          std::vector<int>{41, 43, 45});
    CHECK(numbers(band::walk(steps({{33}, {33, 45}}))) == std::vector<int>{33, 45});
}

TEST_CASE("a walk strikes a note twice rather than leap a sixth up and a seventh down") {
    CHECK(numbers(band::walk(steps({{41}, {41, 50}, {40}}))) == std::vector<int>{41, 41, 40});
}

TEST_CASE("a walk never strikes a note a third time unless it may stay") {
    CHECK(numbers(band::walk(steps({{41}, {41}, {41, 54}}))).back() == 54);
    auto staying = steps({{41}, {41}, {41, 54}});
    for (auto& one : staying) one.repeats = one.stays = true;
    CHECK(numbers(band::walk(staying)) == std::vector<int>{41, 41, 41});
}

TEST_CASE("a walk goes on rather than to and fro, and turns once rather than at every note") {
    CHECK(numbers(band::walk(steps({{41}, {43}, {41, 45}}))) == std::vector<int>{41, 43, 45});
    CHECK(numbers(band::walk(steps({{41}, {43}, {42, 44}}))) == std::vector<int>{41, 43, 44});
    // After a turn it does not turn again: 43 41 42 and on to 44, not back to 40.
    CHECK(numbers(band::walk(steps({{41}, {43}, {41}, {42}, {40, 44}}))).back() == 44);
}

TEST_CASE("where it does not walk, to and fro costs nothing") {
    auto free = steps({{41}, {43}, {41, 46}});
    for (auto& one : free) one.walks = false;
    CHECK(numbers(band::walk(free)) == std::vector<int>{41, 43, 41});
}

TEST_CASE("a walk keeps how far a note may go and from how far it may come") {
    std::vector<Step> way = {step({41}, band::by_step), step({40, 45}), step({48})};
    CHECK(numbers(band::walk(way)) == std::vector<int>{41, 40, 48});
    way = {step({41}), step({45, 40}), step({46})};
    way[1].choices[0].from = band::by_step;
    CHECK(numbers(band::walk(way)) == std::vector<int>{41, 40, 46});
}

TEST_CASE("a walk that cannot keep its reach goes on without it, and keeps the octave if it can") {
    CHECK(numbers(band::walk({step({41}, band::by_step), step({50, 28})})) ==
          std::vector<int>{41, 50});
    CHECK(numbers(band::walk({step({28}, band::by_step), step({55})})) == std::vector<int>{28, 55});
    CHECK(numbers(band::walk(steps({{41}, {41}, {41}}))) == std::vector<int>{41, 41, 41});
}

TEST_CASE("a walk goes on from where it stands") {
    const auto way = steps({{41, 43}});
    // From 43 by 42 down to 41; from 41 by 42 up to 43.
    CHECK(numbers(band::walk(way, {{MidiNote(43), MidiNote(42)}})) == std::vector<int>{41});
    CHECK(numbers(band::walk(way, {{MidiNote(41), MidiNote(42)}})) == std::vector<int>{43});
    CHECK(numbers(band::walk(steps({{44, 48}}), {{MidiNote(43)}, band::by_either(5)})) ==
          std::vector<int>{48});
}

TEST_CASE("a line cut in two and joined by its lead costs what it does uncut") {
    // The cut is where there is no choice on either side of it.
    const auto way = steps({{41}, {43, 38}, {45}, {43}, {44, 42}, {40, 45}, {47, 41}});
    const auto whole = band::walk(way);
    const auto first = band::walk({way.begin(), way.begin() + 4});
    const auto lead = band::lead_after({}, first);
    CHECK(lead.notes == std::vector<MidiNote>{MidiNote(45), MidiNote(43)});
    CHECK(lead.turned);
    auto joined = numbers(first);
    for (const int note : numbers(band::walk({way.begin() + 4, way.end()}, lead))) {
        joined.push_back(note);
    }
    CHECK(joined == numbers(whole));
}

TEST_CASE("no other line costs less than a walk's") {
    // All lines are tried, each as a walk without a choice whose cost shows in what it beats: with
    // the first step doubled, a dearer twin of the walk must lose to it and a cheaper one win.
    sound::Noise chance(7);
    const auto pick = [&](int count) {
        return std::min(static_cast<int>((chance.next() + 1.0) / 2 * count), count - 1);
    };
    const auto random_steps = [&](std::size_t count) {
        std::vector<Step> way(count);
        for (auto& one : way) {
            for (int note = 34 + pick(3); note < 50; note += 1 + pick(7)) {
                one.choices.push_back({MidiNote(note), pick(6)});
            }
        }
        return way;
    };
    for (int round = 0; round < 200; ++round) {
        const auto way = random_steps(5);
        const auto best = numbers(band::walk(way));
        REQUIRE(best.size() == 5);
        // Taking any note of the line for granted changes nothing of the rest.
        for (std::size_t i = 0; i < way.size(); ++i) {
            auto fixed = way;
            const auto& all = way[i].choices;
            const auto kept = std::find_if(all.begin(), all.end(), [&](const Choice& one) {
                return one.note.number() == best[i];
            });
            REQUIRE(kept != all.end());
            fixed[i].choices = {*kept};
            CHECK(numbers(band::walk(fixed)) == best);
        }
    }
}

TEST_CASE("a line moves when eight notes have four pitches and a fourth between them") {
    CHECK(band::stalls_of(heard({41, 43, 45, 46, 45, 43, 41, 40}), 0).empty());
    CHECK(band::stalls_of(heard({41, 43, 46, 43, 41, 43, 46, 43}), 0).size() == 2);
    CHECK(band::stalls_of(heard({41, 42, 43, 44, 45, 44, 43, 42}), 0) ==
          std::vector<Stall>{{0, 7}});
    CHECK(band::stalls_of(heard({41, 42, 43, 44, 46, 44, 43, 42}), 0).empty());
    CHECK(band::stalls_of(heard({41, 42, 43, 44, 45, 44, 43}), 0).empty());
}

TEST_CASE("a rest, another manner and more than four given notes excuse a line that stands still") {
    const auto still = heard({41, 42, 43, 44, 45, 44, 43, 42});
    auto line = still;
    line[4].joins = false;
    CHECK(band::stalls_of(line, 0).empty());
    line = still;
    line[4].walks = false;
    CHECK(band::stalls_of(line, 0).empty());
    line = still;
    for (std::size_t i = 0; i < 4; ++i) line[2 * i].given = true;
    CHECK(band::stalls_of(line, 0).size() == 1);
    line[1].given = true;
    CHECK(band::stalls_of(line, 0).empty());
}

TEST_CASE("a line that stands still before a given note has stalled already") {
    const auto seven = heard({41, 42, 43, 44, 45, 44, 43});
    CHECK(band::stalls_of(seven, 0).empty());
    CHECK(band::stalls_of(seven, 1) == std::vector<Stall>{{0, 6}});
    const auto six = heard({41, 42, 43, 44, 45, 44});
    CHECK(band::stalls_of(six, 1).empty());
    CHECK(band::stalls_of(six, 2) == std::vector<Stall>{{0, 5}});
}

TEST_CASE("a bar that is the bar before has stalled, unless all of it is given") {
    auto line = heard({41, 45, 48, 51, 41, 45, 48, 51});
    CHECK(band::stalls_of(line, 0) == std::vector<Stall>{{4, 7}});
    for (auto& note : line) note.given = true;
    CHECK(band::stalls_of(line, 0).empty());
    CHECK(band::stalls_of(heard({41, 45, 48, 51, 41, 45, 48, 50}), 0).empty());
}
