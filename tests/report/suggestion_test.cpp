// The weakest bars, and the command that loops them with all that was asked for.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

#include <compline/chart/through_keys.hpp>
#include <compline/report/columns.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

practice::Report with_weakest(const chart::Form& form, int from, int to, int loop_from) {
    auto report = judged(through(form, 3), {});
    report.assessment.weakest = assess::Weakest{from, to, 2, {loop_from, to}};
    report.chart_file = "charts/t.yaml";
    auto missed = at(not_struck(assess::Verdict::missed), 1, from);
    report.assessment.changes = {missed, at(missed, 2, from), at(missed, 3, to),
                                 at(a_change(), 1, to)};
    return report;
}

chart::Form two_sections() {
    return chart::unroll(
        chart::read_chart("title: T\nkey: F\ntempo: 120\nform: [A, B, A]\nsections:\n"
                          "  A: F6 | D7 | Gm7 | C7\n  B: Bb6 | Bbm6 | Am7 | D7\n",
                          "t"));
}

/// From "Weakest" to the end.
std::string suggestion(const practice::Report& report) {
    const auto text = report::to_text(report);
    const auto at = text.find("Weakest  ");
    return at == std::string::npos ? "" : text.substr(at);
}

}  // namespace

TEST_CASE("the weakest bars are named as they are counted and as --bars takes them", "[report]") {
    CHECK(suggestion(with_weakest(two_sections(), 5, 8, 5)) ==
          "Weakest  bars 5-8 (B:1-4): 3 faults in 3 times through\n"
          "         loop them:\n"
          "         compline practice charts/t.yaml --bars 5-8\n");
    const auto second = suggestion(with_weakest(two_sections(), 9, 12, 9));
    CHECK(second.find("bars 9-12 (A@2:1-4): ") != std::string::npos);
    // In two sections, and of a form that has but one, there is no other name.
    CHECK(suggestion(with_weakest(two_sections(), 3, 6, 3)).find("bars 3-6: ") !=
          std::string::npos);
    CHECK(suggestion(with_weakest(thirty_two_bars(), 3, 6, 3)).find("bars 3-6: ") !=
          std::string::npos);
}

TEST_CASE("a bar to come from is explained", "[report]") {
    CHECK(suggestion(with_weakest(two_sections(), 5, 8, 4)) ==
          "Weakest  bars 5-8 (B:1-4): 3 faults in 3 times through\n"
          "         loop them, with bar 4 to come from:\n"
          "         compline practice charts/t.yaml --bars 4-8\n");
}

TEST_CASE("what was asked for is asked for again, in lines that a shell joins", "[report]") {
    auto report = with_weakest(two_sections(), 5, 8, 5);
    report.kept = {{"--out", "JACK:system out"}, {"--rhythm", "1 2&"}, {"--fills", ""}};
    CHECK(suggestion(report).find("--bars 5-8 --out 'JACK:system out' \\\n"
                                  "             --rhythm '1 2&' --fills\n") != std::string::npos);
    report.kept = {{"--voicings", std::string(90, 'x')}, {"--in", "ALSA:six"}};
    const auto text = suggestion(report);
    CHECK(text.find("--bars 5-8 \\\n             --voicings xxx") != std::string::npos);
    CHECK(text.find("x \\\n             --in ALSA:six\n") != std::string::npos);
}

TEST_CASE("changes that were typed are looped without a chart", "[report]") {
    auto report = with_weakest(two_sections(), 5, 8, 5);
    report.chart_file.clear();
    CHECK(suggestion(report).find("compline practice") == std::string::npos);
    report.kept = {{"--changes", "Dm7 | G7"}};
    CHECK(suggestion(report).find("compline practice --bars 5-8 --changes 'Dm7 | G7'\n") !=
          std::string::npos);
}

TEST_CASE("the tempo played last is asked for again where it is not the chart's", "[report]") {
    const auto form = two_sections();
    roadmap::Asked asked = roadmap::Asked::of(form.whole(), 2);
    asked.tempo = time::Bpm(104);
    auto report = with_weakest(form, 5, 8, 5);
    report.map = roadmap::RoadMap(form, asked);
    CHECK(suggestion(report).find("--bars 5-8 --tempo 104\n") != std::string::npos);
    report.map = roadmap::RoadMap(form, asked, {{13, roadmap::NewTempo{time::Bpm(120)}}});
    CHECK(suggestion(report).find("--bars 5-8\n") != std::string::npos);
}

TEST_CASE("bars that went through the keys are looped in the key they were weakest in",
          "[report]") {
    const chart::Passage passage{5, 8};
    const auto keys = chart::unroll(chart::through_keys(two_sections(), passage, 5, 4));
    auto report = with_weakest(keys, 9, 12, 8);
    report.through_keys = passage;
    CHECK(suggestion(report).find("charts/t.yaml --bars 5-8 --key Eb\n") != std::string::npos);
    // Over a seam what belongs to the first of the two keys.
    report.assessment.weakest = assess::Weakest{7, 10, 2, {7, 10}};
    CHECK(suggestion(report).find("charts/t.yaml --bars 7-8 --key Bb\n") != std::string::npos);
}

namespace {

/// These bars of a chart at 120, four changes each time through, all of them clean; at a tempo.
practice::Report clean(int from, int to, double tempo) {
    auto asked = roadmap::Asked::of({from, to}, 2);
    asked.tempo = time::Bpm(tempo);
    auto report = judged(roadmap::RoadMap(two_sections(), asked), {});
    report.assessment = report_of({at(a_change(), 1, from), at(a_change(), 1, to),
                                   at(a_change(), 2, from), at(a_change(), 2, to)})
                            .assessment;
    report.chart_file = "charts/t.yaml";
    report.kept = {{"--in", "six"}};
    return report;
}

/// From "Next" to the end.
std::string next(const practice::Report& report) {
    const auto text = report::to_text(report);
    const auto at = text.find("Next     ");
    return at == std::string::npos ? "" : text.substr(at);
}

}  // namespace

TEST_CASE(
    "after a clean loop comes the same a little faster, and at the chart's tempo the whole tune",
    "[report]") {
    CHECK(next(clean(5, 8, 96)) ==
          "Next     the same, 4 % faster:\n"
          "         compline practice charts/t.yaml --bars 5-8 --tempo 100 --in six\n");
    CHECK(next(clean(5, 8, 120)) ==
          "Next     the whole tune:\n"
          "         compline practice charts/t.yaml --in six\n");
    CHECK(next(clean(1, 12, 120)) ==
          "Next     the same, 4 % faster:\n"
          "         compline practice charts/t.yaml --tempo 125 --in six\n");
    CHECK(next(clean(1, 12, 400)).find("Next     the same again:\n") == 0);
}

TEST_CASE("the same comes again while a fault is left, and nothing is said where nobody knows",
          "[report]") {
    auto one_wrong = clean(5, 8, 96);
    one_wrong.assessment.totals.right_tones -= 1;
    CHECK(next(one_wrong) ==
          "Next     the same again:\n"
          "         compline practice charts/t.yaml --bars 5-8 --tempo 96 --in six\n");
    auto without_chart = clean(5, 8, 96);
    without_chart.chart_file.clear();
    CHECK(next(without_chart).empty());
    auto too_little = clean(5, 8, 96);
    too_little.assessment.totals.changes = 9;
    CHECK(next(too_little).empty());
}
