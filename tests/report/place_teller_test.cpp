// What is said where nothing is drawn.

#include "report/rows.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/place_teller.hpp>

using namespace compline;
using namespace compline::tests;
using time::quarter_note;

namespace {

/// A of six bars twice, B of eight, A again, listened to beat by beat.
struct Listening {
    chart::Form form = six_and_eight();
    roadmap::Asked asked = roadmap::Asked::of(form.whole(), 2);
    std::vector<roadmap::Decision> decisions;
    report::Decided decided;
    report::PlaceTeller teller;

    Listening() {
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
        Lines lines;
        for (int beat = from; beat < to; ++beat) {
            for (auto& line : at(beat)) lines.push_back(std::move(line));
        }
        return lines;
    }
};

}  // namespace

TEST_CASE("a line is said as each section and each time through begins, and none between",
          "[report]") {
    Listening heard;
    CHECK(heard.through(-8, 4 * 26 + 4) ==
          Lines{"count-in, 132 bpm, first C6", "section A, bar 1, 1st time through, 132 bpm, C6",
                "section A, bar 7, 1st time through, 132 bpm, C6",
                "section B, bar 13, 1st time through, 132 bpm, F6",
                "section A, bar 21, 1st time through, 132 bpm, C6",
                "section A, bar 1, 2nd time through, 132 bpm, C6"});
    CHECK(heard.through(4 * 52, 4 * 54).empty());
}

TEST_CASE("another take is said from its beginning", "[report]") {
    Listening heard;
    (void)heard.through(-8, 4);
    heard.teller.start_over();
    CHECK(heard.at(-8) == Lines{"count-in, 132 bpm, first C6"});
}

TEST_CASE("the part of a road map is named before its section", "[report]") {
    Listening heard;
    heard.asked.way = chart::read_road_map(heard.form, "head; solo");
    CHECK(heard.at(0) == Lines{"head, section A, bar 1, 1st time through, 132 bpm, C6"});
}

TEST_CASE("what the player decides is said once, in the words of the screen", "[report]") {
    Listening heard;
    (void)heard.at(0);
    const auto then = [&] { return heard.at(1); };
    heard.decided.tempo = time::Bpm(126.72);
    CHECK(then() == Lines{"126.7 bpm"});
    heard.decided.loop = chart::Passage{1, 4};
    CHECK(then() == Lines{"loop 1-4"});
    heard.decided.loop = chart::Passage{3, 3};
    CHECK(then() == Lines{"loop 3"});
    heard.decided.loop.reset();
    CHECK(then() == Lines{"whole tune"});
    heard.decided.drums_out = true;
    CHECK(then() == Lines{"drums out"});
    heard.decided.bass_out = true;
    heard.decided.drums_out = false;
    CHECK(then() == Lines{"drums in", "bass out"});
    heard.decided.paused = true;
    CHECK(then() == Lines{"pause"});
    heard.decided.paused = false;
    CHECK(then() == Lines{"going on"});
    heard.decided.until_cue = true;
    CHECK(then() == Lines{"until cue"});
    heard.decided.refused = "no faster";
    CHECK(then() == Lines{"no faster"});
    CHECK(then().empty());
}

TEST_CASE("in a pause nobody is said to have come in or gone out", "[report]") {
    Listening heard;
    heard.decisions = {{3, roadmap::Stopped{}}};
    heard.decided.paused = true;
    heard.decided.drums_out = true;
    (void)heard.at(7);
    heard.decided.drums_out = false;  // nobody plays
    CHECK(heard.at(9).empty());
}
