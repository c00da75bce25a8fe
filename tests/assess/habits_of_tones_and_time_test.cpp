#include "assess/six_times.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;

namespace {

/// A strum on every beat and on the off-beat after it, each so late.
void strum_eighths(Take& take, int pairs, double on_ms, double off_ms) {
    for (int n = 0; n < pairs; ++n) {
        const double scatter = n % 3 - 1;
        assess::ReadStrum strum;
        strum.asynchrony = time::from_milliseconds(on_ms + 4 * scatter);
        take.strums.push_back(strum);
        strum.asynchrony = time::from_milliseconds(off_ms - 3 * scatter);
        strum.off_beat = true;
        take.strums.push_back(strum);
    }
}

}  // namespace

TEST_CASE("a place that is now missed, now wrong is one habit; late and wrong at once it is two") {
    Take turns;
    Take both;
    for (int time = 1; time <= times_through; ++time) {
        if (time > 3) turns.at(time, 12).verdict = Verdict::missed;
        if (time > 3) turns.at(time, 12).tones = Tones::none;
        if (time <= 3) spoil(turns.at(time, 12), 2);
        be_late(both.at(time, 12));
        if (time > 2) spoil(both.at(time, 12), 2 + time % 3);
    }
    CHECK(words(turns) == "place mixed 6 of 6, bar 12, Am7 to A♭7");
    CHECK(turns.habits().front().cost == Approx(3 + 3 * 0.5));
    CHECK(words(both) ==
          "place late 6 of 6, bar 12, Am7 to A♭7; place wrong 4 of 6, bar 12, Am7 to A♭7");
}

TEST_CASE("one tone of one kind of chord is named, and the kind alone where it is now this one") {
    Take sevenths;
    Take any;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {2, 9, 21}) {
            miss(sevenths.at(time, bar), {7, -1});
            miss(any.at(time, bar), {time % 2 == 0 ? 3 : 7, -1});
        }
    }
    CHECK(words(sevenths) == "tone incomplete 18 of 18, half-diminished b7");
    CHECK(sevenths.habits().front().cost == Approx(18 * 0.25));
    CHECK(words(any) == "quality incomplete 18 of 18, half-diminished");
}

TEST_CASE("a foreign tone stands for the degree that its string should have had") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {2, 9, 21}) {
            auto& change = take.at(time, bar);
            spoil(change, 2 + bar % 3);
            change.wrong.front().nearest_fret = 5;
            change.wrong.front().nearest = harmony::spell(change.to.root, {5, -1});
        }
    }
    CHECK(words(take) == "tone wrong 18 of 18, half-diminished b5");
}

TEST_CASE("an altered dominant is a kind of its own, and a thirteenth chord a dominant") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {3, 22}) be_late(take.at(time, bar));
    }
    CHECK(words(take) == "quality late 12 of 12, dominant ♭9");
    for (auto& change : take.changes) {
        const bool dominant = change.to.quality == harmony::Quality::dominant_seventh ||
                              change.to.quality == harmony::Quality::dominant_thirteenth;
        if (dominant && change.to.alterations.none()) be_late(change);
    }
    CHECK(words(take) == "quality late 54 of 54, dominant; quality late 12 of 12, dominant ♭9");
}

TEST_CASE("foreign tones on one string are a habit of that string, on now this and now that none") {
    Take one;
    Take each;
    for (int n = 0; n < 9; ++n) {
        auto& change = one.changes[static_cast<std::size_t>(n * 13)];
        spoil(change, n == 4 ? 5 : 3);
        spoil(each.changes[static_cast<std::size_t>(n * 13)], 2 + n % 4);
    }
    CHECK(words(one) == "string wrong 8 of 144, string 3");
    CHECK(words(each).empty());
    for (auto& change : one.changes) change.strings = 0;
    CHECK(words(one).empty());
}

TEST_CASE("off-beats before their time are rushed and after it dragged, against one's own beats") {
    Take rushed;
    strum_eighths(rushed, 20, 15, -25);
    CHECK(words(rushed) == "off_beats rushed 20 of 20");
    CHECK(*rushed.habits().front().mean_ms == Approx(-40));
    Take dragged;
    strum_eighths(dragged, 20, -5, 30);
    CHECK(words(dragged) == "off_beats dragged 20 of 20");
    Take behind;
    strum_eighths(behind, 20, 30, 45);
    CHECK(words(behind).empty());
    Take few;
    strum_eighths(few, 11, 0, -60);
    CHECK(words(few).empty());
}

TEST_CASE("on beats that come late there is nothing to see of the off-beats") {
    Take take;
    strum_eighths(take, 20, 110, 0);
    CHECK(words(take).empty());
}

TEST_CASE("a place that waits or is left out is one, and a way of comping is neither") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        auto& waits = take.at(time, 7);
        waits.verdict = Verdict::placed;
        waits.beats_in = 1;
        waits.lateness = time::Seconds(0.012);
        if (time < 6) take.at(time, 20).verdict = Verdict::laid_out;
    }
    CHECK(words(take) ==
          "wait wait 6 of 6, bar 7, Cm7 to F7; left_out left_out 5 of 6, bar 20, Em7 to E♭7");
    CHECK(take.habits().front().cost == Approx(1.5));
    for (std::size_t n = 0; n < take.changes.size(); n += 2) {
        take.changes[n].verdict = Verdict::placed;
        take.changes[n].beats_in = 1;
        take.changes[n + 1].verdict = Verdict::laid_out;
    }
    CHECK(words(take).empty());
}

TEST_CASE("who waits for the grip on wide moves has that habit, whatever the place") {
    Take take;
    for (std::size_t n = 0; n < take.changes.size(); n += 7) {
        take.changes[n].wide_move = true;
        if (n % 4 == 1) continue;
        take.changes[n].verdict = Verdict::placed;
        take.changes[n].beats_in = 1;
    }
    CHECK(words(take) == "wide_move wait 16 of 21");
    CHECK(take.habits().front().cost == Approx(4));
}

TEST_CASE("a transition that waits wherever it stands is one wait without a bar") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {5, 18}) {
            take.at(time, bar).verdict = Verdict::placed;
            take.at(time, bar).beats_in = 1;
        }
    }
    CHECK(words(take) == "wait wait 12 of 12, Dm7 to G7");
}
