// One change in a line, as it is said while playing: whether well or not.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;
using assess::Verdict;

namespace {

std::string said(const assess::Change& change, int beats = 4) {
    return report::verdict_line(change, through(thirty_two_bars(time::Meter(beats)), 2));
}

}  // namespace

TEST_CASE("a change that went well is said with its milliseconds", "[report]") {
    auto change = a_change();
    CHECK(said(change) == "bar 7  A7 → Dm7  on time");
    change.lateness = time::from_milliseconds(3);
    CHECK(said(change) == "bar 7  A7 → Dm7  on time, 3 ms behind the beat");
    // A broad strum that reaches the beat began before it.
    change.lateness = time::from_milliseconds(-46);
    change.spread = time::from_milliseconds(40);
    CHECK(said(change) == "bar 7  A7 → Dm7  on time, strummed from 46 ms before the beat");
    CHECK(said(not_struck(Verdict::laid_out)) == "bar 7  A7 → Dm7  laid out");
}

TEST_CASE("a placed change names the beat or off-beat of the bar that it was placed on",
          "[report]") {
    CHECK(said(placed(1, 12)) == "bar 7  A7 → Dm7  placed on 2, 12 ms behind the beat");
    CHECK(said(placed(0.5, -8)) == "bar 7  A7 → Dm7  placed on 1&, 8 ms ahead of the beat");
    CHECK(said(at(placed(1), 1, 5, 3)) == "bar 5 beat 3  A7 → Dm7  placed on 4");
}

TEST_CASE("a change placed beyond its bar line names the beat of that bar", "[report]") {
    CHECK(said(at(placed(2), 1, 5, 3)) == "bar 5 beat 3  A7 → Dm7  placed on 1 of the next bar");
    CHECK(said(at(placed(1.5), 1, 5, 3), 3) ==
          "bar 5 beat 3  A7 → Dm7  placed on 1& of the next bar");
    CHECK(said(placed(9)) == "bar 7  A7 → Dm7  placed on 2, 2 bars on");
}

TEST_CASE("a beat is named in the meter of the bar that the change stands in", "[report]") {
    auto form = thirty_two_bars();
    form.bars[6].meter = time::Meter(3);
    const auto map = through(form, 2);
    const auto change = at(placed(1), 1, 7, 3);
    CHECK(report::verdict_line(change, map) ==
          "bar 7 beat 3  A7 → Dm7  placed on 1 of the next bar");
    CHECK(report::verdict_line(at(placed(4), 1, 6, 3), map) ==
          "bar 6 beat 3  A7 → Dm7  placed on 3 of the next bar");
    CHECK(report::verdict_line(at(placed(5), 1, 6, 3), map) ==
          "bar 6 beat 3  A7 → Dm7  placed on 1, 2 bars on");
    CHECK(report::verdict_line(at(change, 1, 6, 3), map) == "bar 6 beat 3  A7 → Dm7  placed on 4");
}

TEST_CASE("beyond its bar line a change is placed in the bar that was played next, not the chart's",
          "[report]") {
    auto form = thirty_two_bars();
    form.bars[8].meter = time::Meter(3);  // after the loop
    form.bars[4].meter = time::Meter(2);  // and in its front
    const roadmap::RoadMap loop(form, roadmap::Asked::of({5, 8}, 3));
    const auto change = at(placed(5), 1, 8, 3);
    CHECK(report::verdict_line(change, loop) == "bar 8 beat 3  A7 → Dm7  placed on 2, 2 bars on");
    CHECK(report::verdict_line(change, through(form)) ==
          "bar 8 beat 3  A7 → Dm7  placed on 1, 2 bars on");
    // The last bar of all: as if the tune went on.
    CHECK(report::verdict_line(at(placed(5), 3, 8, 3), loop) ==
          "bar 8 beat 3  A7 → Dm7  placed on 1, 2 bars on");
}

TEST_CASE("a change played astray names the chord it was meant for", "[report]") {
    auto change = a_change();
    change.verdict = Verdict::astray;
    change.tones = assess::Tones::incomplete;
    change.missing = {{7, -1}};  // of the chord that was meant
    CHECK(said(change) == "bar 7  A7 → Dm7  astray");
    change.meant = chord("Gm7");
    CHECK(said(change) == "bar 7  A7 → Dm7  astray: meant for Gm7");
}

TEST_CASE("a wait and a chord that is left out are said of one change too", "[report]") {
    auto wait = placed(1, 12);
    wait.wait = true;
    CHECK(said(wait) == "bar 7  A7 → Dm7  in on 2; its neighbours where they are due");
    auto left_out = not_struck(Verdict::laid_out);
    left_out.left_out = true;
    CHECK(said(left_out) == "bar 7  A7 → Dm7  left out");
}

TEST_CASE("a change both late and wrong is one line of both", "[report]") {
    auto change = a_change();
    change.verdict = Verdict::late;
    change.lateness = time::from_milliseconds(62);
    change.tones = assess::Tones::incomplete;
    change.missing = {{7, -1}};
    CHECK(said(change) == "bar 7  A7 → Dm7  late 62 ms; bar 7  Dm7  without its ♭7 (C)");
}
