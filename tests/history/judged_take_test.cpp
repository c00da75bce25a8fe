// What of a take that was judged goes into the history.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/history/judged_take.hpp>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

const std::string chart_text =
    "title: Lantern\nkey: C\ntempo: 120\nsections:\n  A: \"Dm7 | G7 | Cmaj7 | A7\"\n";

chart::Form form_in(const char* key) {
    auto chart = chart::read_chart(chart_text, "chart");
    const auto into = chart::read_key_for(chart.key, key);
    return chart::unroll(chart::transposed(std::move(chart), into, 15).chart);
}

practice::Report report_of(const Comper& comper) {
    practice::Report report{comper.map(), {}, {}, comper.judged(), {}, {}, {}, "", ""};
    report.made = "2026-11-04T01:30:00+01:00";
    return report;
}

JudgedTake rows_of(const Comper& comper, const std::string& key = "") {
    TakeFacts facts;
    facts.fingerprint = "0123456789abcdef";
    facts.chart_text = chart_text;
    facts.key = key;
    return judged_take(report_of(comper), facts);
}

/// Dm7, G7, Cmaj7 and A7, the second of them late.

void play(Comper& comper) {
    comper.strum(1, 1, "x5353x", 3, 3)
        .strum(2, 1, "3x34xx", 120, 3)
        .strum(3, 1, "x3243x", 3, 3)
        .strum(4, 1, "x-0-5-6-x-x", 3, 3);
}

}  // namespace

TEST_CASE("each change of a take is kept with what was said of it", "[history]") {
    Comper comper(form_in("C"), 120);
    play(comper);
    const auto judged = rows_of(comper);
    REQUIRE(judged.changes.size() == 4);
    const auto& late = judged.changes[1];
    CHECK(late.bar == 2);
    CHECK(late.from == "Dm7");
    CHECK(late.to == "G7");
    CHECK(late.verdict == "late");
    CHECK(late.lateness_ms.value() == Approx(120).margin(0.5));
    CHECK_FALSE(late.in_time);
    CHECK(late.counts);
    CHECK(late.cost > 0);
    CHECK(judged.changes[0].in_time);
    CHECK(judged.changes[0].from.empty());
    CHECK(judged.strums.size() == 4);
    CHECK(judged.strums[0].read_as == "landing");
    CHECK(judged.take.evening == "2026-11-03");
    CHECK(judged.take.counted == 4);
    CHECK(judged.take.in_time == 3);
    CHECK(judged.chart.title == "Lantern");
    CHECK(judged.chart.key == "C");
}

TEST_CASE("a tune that is played in another key keeps its own places and chords", "[history]") {
    Comper comper(form_in("D"), 120);  // Em7, A7, Dmaj7, B7
    comper.strum(1, 1, "x7575x", 3, 3).strum(2, 1, "5x56xx", 3, 3);
    const auto judged = rows_of(comper, "D");
    REQUIRE(judged.changes.size() == 4);
    CHECK(judged.changes[0].to == "Dm7");
    CHECK(judged.changes[1].from == "Dm7");
    CHECK(judged.changes[1].to == "G7");
    CHECK(judged.take.key == "D");
    CHECK(judged.chart.key == "C");
    CHECK(judged.chart.hash == rows_of(Comper(form_in("C"), 120)).chart.hash);
}

TEST_CASE("a time through in which nobody played counts for nothing", "[history]") {
    Comper comper(form_in("C"), 120);
    comper.times(2);
    play(comper);
    comper.strum(4, 2, "x-11-13-13-13-x", 3, 20);  // A flat rings on, which is due nowhere
    const auto judged = rows_of(comper);
    REQUIRE(judged.changes.size() == 8);
    INFO(comper.verdicts());
    CHECK(judged.changes[3].counts);
    for (std::size_t i = 4; i < 8; ++i) CHECK_FALSE(judged.changes[i].counts);
    CHECK(judged.changes[5].verdict == "missed");
    CHECK(judged.take.changes == 8);
    CHECK(judged.take.counted == 4);
    REQUIRE(judged.times.size() == 2);
    CHECK(judged.times[1].struck == 0);
    CHECK_FALSE(judged.times[1].clean);
}

TEST_CASE("a time through is of the whole tune or of bars of it, in its tempo and as long",
          "[history]") {
    Comper whole(form_in("C"), 120);
    play(whole);
    const auto all = rows_of(whole).times.at(0);
    CHECK(all.whole_tune);
    CHECK(all.from_bar == 1);
    CHECK(all.to_bar == 4);
    CHECK(all.bpm == 120);
    CHECK(all.seconds == Approx(8));
    Comper loop(form_in("C"), 90);
    loop.passage(2, 3).strum(1, 1, "3x34xx", 0, 3);
    const auto bars = rows_of(loop);
    CHECK_FALSE(bars.times.at(0).whole_tune);
    CHECK(bars.times.at(0).from_bar == 2);
    CHECK(bars.times.at(0).to_bar == 3);
    CHECK(bars.times.at(0).bpm == 90);
    CHECK(bars.take.from_bar == 2);
    CHECK(bars.changes.at(0).bpm == 90);
}

TEST_CASE("changes that were typed are a drill, and no tune", "[history]") {
    TakeFacts facts;
    facts.chart_text = "title: \"Dm7 | G7\"\nkey: C\ntempo: 120\nsections:\n  A: \"Dm7 | G7\"\n";
    Comper comper("Dm7 | G7", 120);
    CHECK(judged_take(report_of(comper), facts).chart.drill);
    CHECK_FALSE(rows_of(Comper(form_in("C"), 120)).chart.drill);
}
