// A take with several tempi, and one whose way was changed on the way: what is said of it.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/tempi.hpp>
#include <compline/report/time_through_line.hpp>

#include <nlohmann/json.hpp>

#include <sstream>

using namespace compline;
using namespace compline::tests;
using roadmap::Decision;
using roadmap::NewTempo;

namespace {

Decision tempo(std::int64_t from_bar, double bpm) { return {from_bar, NewTempo{time::Bpm(bpm)}}; }

chart::Way some_bars(int from, int to, int times = 1) { return chart::Way::of({from, to}, times); }

/// Eight bars some times at 132 bpm, and what was decided since.
roadmap::RoadMap eight(int times, const std::vector<Decision>& decided) {
    const auto map = through(eight_bars(), times);
    return {map.form(), map.asked(), decided};
}

/// Another tempo each time through.
roadmap::RoadMap ladder(int times, double step) {
    std::vector<Decision> decided;
    for (int time = 1; time < times; ++time) {
        decided.push_back(tempo(8 * time + 1, 132 + step * time));
    }
    return eight(times, decided);
}

/// "" where there is none.
std::string tempo_line(const roadmap::RoadMap& map) {
    const auto text = report::to_text(judged(map, {}));
    const auto at = text.find("\nTempo ");
    return at == std::string::npos ? "" : text.substr(at + 1, text.find('\n', at + 1) - at - 1);
}

nlohmann::json tempi_json(const roadmap::RoadMap& map) {
    return nlohmann::json::parse(report::to_json(judged(map, {})))["played"]["tempi"];
}

bool contains(const std::string& text, const std::string& part) {
    INFO(text);
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a take in one tempo says it in its heading alone", "[report]") {
    CHECK(tempo_line(eight(3, {})).empty());
    CHECK(tempo_line(eight(3, {tempo(9, 132)})).empty());
    CHECK(report::tempo_range(eight(3, {})) == "132 bpm");
    CHECK(tempi_json(eight(3, {tempo(9, 132)})) == nlohmann::json::parse(R"([
        {"time_through": 1, "from_bar_played": 1, "tempo_bpm": 132}])"));
}

TEST_CASE("several tempi are said by time through", "[report]") {
    const auto map = eight(3, {tempo(9, 137), tempo(21, 131), tempo(23, 126)});
    CHECK(tempo_line(map) == "Tempo    1st time 132, 2nd 137, 3rd 137 to 126 bpm");
    CHECK(tempo_line(eight(2, {tempo(9, 137), tempo(12, 142), tempo(14, 137)})) ==
          "Tempo    1st time 132, 2nd between 137 and 142 bpm");
    CHECK(tempo_line(eight(1, {tempo(5, 126.26)})) == "Tempo    132 to 126.3 bpm");
    CHECK(tempi_json(map) == nlohmann::json::parse(R"([
        {"time_through": 1, "from_bar_played": 1, "tempo_bpm": 132},
        {"time_through": 2, "from_bar_played": 9, "tempo_bpm": 137},
        {"time_through": 3, "from_bar_played": 21, "tempo_bpm": 131},
        {"time_through": 3, "from_bar_played": 23, "tempo_bpm": 126}])"));
}

TEST_CASE("times through in a row that went alike are said together", "[report]") {
    CHECK(tempo_line(eight(6, {tempo(17, 137), tempo(41, 126)})) ==
          "Tempo    1st and 2nd time 132, 3rd to 5th 137, 6th 126 bpm");
    // One that changed stands alone, however alike the next.
    CHECK(tempo_line(eight(3, {tempo(12, 137), tempo(17, 132), tempo(20, 137)})) ==
          "Tempo    1st time 132, 2nd 132 to 137, 3rd 132 to 137 bpm");
}

TEST_CASE("of many tempi the first and the last are said, in one line of the screen", "[report]") {
    CHECK(tempo_line(ladder(24, 4)) ==
          "Tempo    1st time 132, 2nd 136, 3rd 140, 4th 144, 5th 148, ..., 24th 224 bpm");
    for (const auto& map : {ladder(7, 4), ladder(8, 4), ladder(12, 0.5), ladder(100, 2)}) {
        CHECK(tempo_line(map).size() <= 80);
        CHECK(tempo_line(map).size() > 60);
    }
    // All of them, where they just fit.
    const auto all = report::tempi_by_time_through(ladder(7, 1), 80);
    CHECK(report::tempi_by_time_through(ladder(7, 1), all.size()) == all);
    CHECK(contains(report::tempi_by_time_through(ladder(7, 1), all.size() - 1), ", ..., 7th 138"));
    CHECK(tempo_line(ladder(7, 1)) ==
          "Tempo    1st time 132, 2nd 133, 3rd 134, 4th 135, 5th 136, 6th 137, 7th 138 bpm");
}

TEST_CASE("a time through that a loop cut short is one, with its own tempo", "[report]") {
    const auto map =
        eight(4, {tempo(9, 137), {12, roadmap::NewWay{some_bars(1, 4, 2)}}, tempo(12, 120)});
    CHECK(tempo_line(map) == "Tempo    1st time 132, 2nd 137, 3rd and 4th 120 bpm");
    CHECK(tempi_json(map).at(2) ==
          nlohmann::json::parse(R"({"time_through": 3, "from_bar_played": 12, "tempo_bpm": 120})"));
}

TEST_CASE("a tempo that was chosen in a pause is that of what comes after it", "[report]") {
    const roadmap::Waited waited{16, some_bars(5, 8)};
    const auto map = eight(1, {{5, roadmap::Paused{}}, tempo(5, 120), {5, waited}});
    CHECK(tempo_line(map) == "Tempo    1st time 132, 2nd 120 bpm");
    CHECK(tempi_json(map).at(1) ==
          nlohmann::json::parse(R"({"time_through": 2, "from_bar_played": 6, "tempo_bpm": 120})"));
    const auto twice = map.with(tempo(6, 110));
    CHECK(tempo_line(twice) == "Tempo    1st time 132, 2nd 110 bpm");
    CHECK(report::tempo_range(twice) == "110 to 132 bpm");
}

TEST_CASE("a tempo in which nothing was played is not said", "[report]") {
    const auto stopped = eight(2, {tempo(9, 137), {9, roadmap::Stopped{}}});
    CHECK(tempo_line(stopped).empty());
    CHECK(tempi_json(stopped).size() == 1);
    CHECK(report::tempo_range(stopped) == "132 bpm");
}

TEST_CASE("where time is free throughout, that is said in place of a tempo", "[report]") {
    const auto of = [](const std::string& form, int times) {
        const auto text = "title: T\nkey: F\ntempo: 120\nform: [" + form +
                          "]\nsections:\n  A: {tempo: rubato, bars: C}\n  B: C\n";
        const auto chart = chart::unroll(chart::read_chart(text, "t.yaml"));
        return through(chart, times);
    };
    CHECK(report::tempi_played(of("A", 1)).empty());
    CHECK(report::tempo_range(of("A", 2)) == "free time");
    CHECK(report::tempi_by_time_through(of("A", 2), 80).empty());
    CHECK(report::tempo_range(of("A, B", 1)) == "120 bpm");
}

TEST_CASE("the heading of several tempi has the slowest and the fastest", "[report]") {
    auto report = judged(eight(3, {tempo(9, 137), tempo(17, 126)}), {});
    CHECK(contains(report::to_text(report), "   4/4   126 to 137 bpm   swing "));
    CHECK(contains(report::to_text(report), ", in time within 42 ms at 132 bpm\n"));
    report.settings.against = assess::Against::beat;
    CHECK(contains(report::to_text(report), "within 42 ms of the beat itself at 132 bpm\n"));
    // One that was asked for is that of every tempo.
    report.settings.tolerance = time::from_milliseconds(42);
    CHECK(contains(report::to_text(report), "within 42 ms of the beat itself\n"));
    CHECK(contains(report::to_text(judged(eight(3, {}), {})), "   132 bpm   swing "));
    CHECK(contains(report::to_text(judged(eight(3, {}), {})), ", in time within 42 ms\n"));
}

TEST_CASE("a heading of many loops is broken between words before it is wider than a terminal",
          "[report]") {
    std::vector<roadmap::Decision> loops;
    for (int bar = 5; bar < 90; bar += 5) {
        const int from = bar % 2 == 0 ? 1 : 5;
        loops.push_back({bar, roadmap::NewWay{some_bars(from, from + 2, 20)}});
    }
    const auto text = report::to_text(judged(eight(2, loops), {}));
    const auto from = text.find("\n\n") + 2;
    const auto heading = text.substr(from, text.find("\n\n", from) - from);
    INFO(heading);
    std::istringstream lines(heading);
    int count = 0;
    for (std::string line; std::getline(lines, line); ++count) {
        CHECK(report::columns_of(line) <= 80);
    }
    CHECK(count > 4);
    CHECK(contains(heading, "\nrhythm free, strictness working, in time within "));
    // What fits stands in one line, as ever.
    CHECK(contains(report::to_text(judged(eight(3, {}), {})), "3 times through; rhythm free"));
}

namespace {

/// Bars 1-3, then 5 and 6 twice, then, after a wait (bar 8), 7 and 8; the Eb minor laid
/// out, bars 6 and 8 late.
practice::Report looped_and_paused() {
    const roadmap::Waited waited{16, some_bars(7, 8)};
    const auto map =
        eight(2, {{4, roadmap::NewWay{some_bars(5, 6, 4)}}, {8, roadmap::Paused{}}, {8, waited}});
    return judged(map, play({{1, 1, "x324xx", 0, 4},
                             {2, 1, "5x56xx", 0, 4},
                             {3, 1, "x5756x", 0, 2},
                             {3, 3, "1x223x", 0, 2},
                             {4, 1, "6x67xx", 0, 4},
                             {5, 1, "x324xx", 100, 3},
                             {6, 1, "6x67xx", 0, 4},
                             {7, 1, "x324xx", 100, 3},
                             {8, 3, "6x67xx", 0, 1},  // noodled while it waits
                             {10, 1, "x5756x", 0, 2},
                             {10, 3, "3x34xx", 100, 2}},
                            map));
}

}  // namespace

TEST_CASE("after loops and pauses times through are counted on, and bars are those of the chart",
          "[report]") {
    const auto report = looped_and_paused();
    const auto& assessment = report.assessment;
    const auto start = [&](int time) {
        const auto line = report::time_through_line(assessment, time);
        return line.substr(0, line.find(';'));
    };
    CHECK(start(1) == "1st time through: 4 changes, all in time");
    CHECK(start(2) == "2nd time through: 2 changes, 1 in time, 1 late");
    CHECK(start(3) == "3rd time through: 2 changes, 1 in time, 1 late");
    CHECK(start(4) == "4th time through: 3 changes, 2 in time (1 laid out), 1 late");
    CHECK(start(5) == "5th time through: no changes were due");
    std::vector<std::string> said;
    for (const auto& change : assessment.changes) {
        const auto line = report::verdict_line(change, report.map);
        said.push_back(line.substr(0, line.find(',')));
    }
    CHECK(said ==
          std::vector<std::string>{"bar 1  Cmaj7  on time", "bar 2  Cmaj7 → A7  on time",
                                   "bar 3  A7 → Dm7  on time", "bar 3 beat 3  Dm7 → F6  on time",
                                   "bar 5  F6 → B♭7  on time", "bar 6  B♭7 → Cmaj7  late 100 ms",
                                   "bar 5  Cmaj7 → B♭7  on time", "bar 6  B♭7 → Cmaj7  late 100 ms",
                                   "bar 7  E♭m7  laid out", "bar 8  E♭m7 → Dm7  on time",
                                   "bar 8 beat 3  Dm7 → G7  late 100 ms"});
    CHECK(contains(report::to_text(report),
                   "  bar 6  B♭7 → Cmaj7  late 2 of 2 times, 100 ms on average\n"));
    CHECK(contains(report::to_text(report), "  4th time  bar 8 beat 3  Dm7 → G7  late 100 ms\n"));
}
