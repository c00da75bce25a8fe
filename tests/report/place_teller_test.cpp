// What is told where nothing is drawn.

#include "report/rows.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/place_teller.hpp>

using namespace compline;
using namespace compline::tests;
using time::quarter_note;

namespace {

/// A of six bars twice, B of eight, A again, listened to beat by beat.
struct Told {
    chart::Form form = six_and_eight();
    roadmap::Asked asked = roadmap::Asked::of(form.whole(), 2);
    std::vector<roadmap::Decision> decisions;
    report::Decided decided;
    report::PlaceTeller teller;

    Told() {
        asked.tempo = time::Bpm(132);
        decided.tempo = asked.tempo;
    }
    Lines at(int beat) {
        const report::Playing playing{roadmap::RoadMap(form, asked, decisions), false, nullptr,
                                      decided};
        return teller.news(report::chart_rows(form, form.all()), playing, quarter_note * beat);
    }
    /// From a beat up to another.
    Lines through(int from, int to) {
        Lines told;
        for (int beat = from; beat < to; ++beat) {
            for (auto& line : at(beat)) told.push_back(std::move(line));
        }
        return told;
    }
};

}  // namespace

TEST_CASE("a line is told as each section and each time through begins, and none between",
          "[report]") {
    Told told;
    CHECK(told.through(-8, 4 * 26 + 4) == Lines{"count-in, 132 bpm, first C6",
                                                "section A, bar 1, 1st time through, 132 bpm, C6",
                                                "section A, bar 7, 1st time through, 132 bpm, C6",
                                                "section B, bar 13, 1st time through, 132 bpm, F6",
                                                "section A, bar 21, 1st time through, 132 bpm, C6",
                                                "section A, bar 1, 2nd time through, 132 bpm, C6"});
    CHECK(told.through(4 * 52, 4 * 54).empty());
}

TEST_CASE("another take is told from its beginning", "[report]") {
    Told told;
    (void)told.through(-8, 4);
    told.teller.start_over();
    CHECK(told.at(-8) == Lines{"count-in, 132 bpm, first C6"});
}

TEST_CASE("the part of a road map is named before its section", "[report]") {
    Told told;
    told.asked.way = chart::read_road_map(told.form, "head; solo");
    CHECK(told.at(0) == Lines{"head, section A, bar 1, 1st time through, 132 bpm, C6"});
}

TEST_CASE("what the player decides is told once, in the words of the screen", "[report]") {
    Told told;
    (void)told.at(0);
    const auto then = [&] { return told.at(1); };
    told.decided.tempo = time::Bpm(126.72);
    CHECK(then() == Lines{"126.7 bpm"});
    told.decided.loop = chart::Passage{1, 4};
    CHECK(then() == Lines{"loop 1-4"});
    told.decided.loop = chart::Passage{3, 3};
    CHECK(then() == Lines{"loop 3"});
    told.decided.loop.reset();
    CHECK(then() == Lines{"whole tune"});
    told.decided.drums_out = true;
    CHECK(then() == Lines{"drums out"});
    told.decided.bass_out = true;
    told.decided.drums_out = false;
    CHECK(then() == Lines{"drums in", "bass out"});
    told.decided.paused = true;
    CHECK(then() == Lines{"pause"});
    told.decided.paused = false;
    CHECK(then() == Lines{"going on"});
    told.decided.until_cue = true;
    CHECK(then() == Lines{"until cue"});
    told.decided.refused = "no faster";
    CHECK(then() == Lines{"no faster"});
    CHECK(then().empty());
}

TEST_CASE("in a pause nobody is said to have come in or gone out", "[report]") {
    Told told;
    told.decisions = {{3, roadmap::Stopped{}}};
    told.decided.paused = true;
    told.decided.drums_out = true;
    (void)told.at(7);
    told.decided.drums_out = false;  // nobody plays
    CHECK(told.at(9).empty());
}
