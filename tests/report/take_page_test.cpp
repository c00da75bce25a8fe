// The report as a page to look at: what stands on it, in which order, and what never does.

#include "report/by_sound.hpp"
#include "report/hand_made.hpp"
#include "report/page_checks.hpp"
#include "report/some_hands.hpp"
#include "support/catch.hpp"

#include <compline/practice/time_alone.hpp>
#include <compline/report/take_page.hpp>

#include <fmt/format.h>

#include <clocale>

using namespace compline;
using namespace compline::tests;

namespace {

/// The clumsy hand's eight bars, some times over.
practice::Report clumsy_times(int times) {
    const auto map = through(eight_bars(), times);
    std::vector<Strum> strums;
    for (int i = 0; i < times; ++i) {
        for (auto strum : clumsy_hand()) {
            strum.bar += 8 * i;
            strums.push_back(strum);
        }
    }
    auto report = judged(map, play(strums, map));
    report.chart_file = "charts/eight-bars.yaml";
    return report;
}

}  // namespace

TEST_CASE("a page begins with what the report begins with, then says what to play next",
          "[report][page]") {
    const auto page = report::take_html(clumsy_report());
    const auto first = report::to_text(clumsy_report());
    const auto sentence = page.find(first.substr(0, first.find('\n')));
    const auto next = page.find(
        "<span>compline practice charts/eight-bars.yaml</span> "
        "<span>--bars ");
    REQUIRE(sentence != std::string::npos);
    REQUIRE(next != std::string::npos);
    CHECK(sentence < next);
    CHECK(next < page.find("<section class=\"strip\""));
}

TEST_CASE("a page is well formed, says its language and leads by headings", "[report][page]") {
    const auto page = report::take_html(clumsy_times(3));
    const auto markup = page.substr(page.find("<html"));
    CHECK(markup_fault(markup) == std::nullopt);
    CHECK(has(page, "<html lang=\"en\">"));
    CHECK(count_of(page, "<h1>") == 1);
    CHECK(count_of(page, "<h2") == count_of(page, "<section"));
}

TEST_CASE("behind every picture of a page stands a table, and words for who cannot see it",
          "[report][page]") {
    const auto page = report::take_html(clumsy_times(3));
    const int pictures = count_of(page, "<figure>");
    CHECK(pictures >= 4);
    CHECK(count_of(page, "<table>") == pictures);
    CHECK(count_of(page, "role=\"img\" aria-label=\"") == pictures);
    CHECK(count_of(page, "aria-label=\"\"") == 0);
    CHECK(count_of(page, "<svg") == count_of(page, "aria-hidden=\"true\""));
    // Ten changes, and the head.
    CHECK(count_of(section_of(page, "strip"), "<tr>") == 11);
    CHECK(count_of(section_of(page, "map"), "<tr>") == 4);
}

TEST_CASE("what charts and files call themselves is never run by a page", "[report][page]") {
    auto form = eight_bars();
    form.chart.title = "<script>alert('1')</script> & \"<img src=x onerror=alert(2)>\x1b[31m";
    const auto map = through(form, 2);
    auto report = judged(map, play(clumsy_hand(), map));
    report.chart_file = "\"><script>4</script>.yaml";
    report.made = "<b>today</b>";
    const auto page = report::take_html(report);
    for (const auto* part : {"<script", "<img", "<b>", "\x1b"}) {
        INFO(part);
        CHECK(!has(page, part));
    }
    CHECK(has(page, "&lt;script&gt;"));
    CHECK(markup_fault(page.substr(page.find("<html"))) == std::nullopt);
}

TEST_CASE("a page forbids scripts and asks nobody for anything", "[report][page]") {
    check_asks_nobody(report::take_html(clumsy_times(2)));
}

TEST_CASE("what was late hangs from the beat, what was early stands on it, as far as it was",
          "[report][page]") {
    auto late = at(a_change(), 1, 5);
    late.verdict = assess::Verdict::late;
    late.lateness = time::from_milliseconds(100);
    auto early = at(a_change(), 1, 6);
    early.verdict = assess::Verdict::early;
    early.lateness = time::from_milliseconds(-50);
    const auto strip = section_of(report::take_html(report_of({late, early})), "strip");
    // The beat is 72 from above, 100 ms are 46.
    CHECK(has(strip, "<path class=\"late\" d=\"M4 72h18v46h-18z\"/>"));
    CHECK(has(strip, "<path class=\"early\" d=\"M104 49h18v23h-18z\"/>"));
}

TEST_CASE("a place is drawn as broad as it went wrong often", "[report][page]") {
    auto late = at(a_change(), 1, 5);
    late.verdict = assess::Verdict::late;
    late.lateness = time::from_milliseconds(100);
    const auto strip = [&](const std::vector<assess::Change>& changes) {
        return section_of(report::take_html(report_of(changes, 2)), "strip");
    };
    CHECK(has(strip({late, at(late, 2, 5)}), "h18v46"));
    CHECK(has(strip({late, at(a_change(), 2, 5)}), "h11v46"));
    CHECK(has(strip({late, at(a_change(), 2, 5)}), "late 1 of 2 times, 100 ms on average"));
}

TEST_CASE("what was in time is not drawn on a strip, nor numbered", "[report][page]") {
    auto in_time = at(a_change(), 1, 5);
    in_time.lateness = time::from_milliseconds(20);
    const auto strip = section_of(report::take_html(report_of({in_time})), "strip");
    CHECK(!has(strip, "class=\"late\""));
    CHECK(!has(strip, "class=\"ms\""));
    CHECK(has(strip, "Every change was where it belongs."));
}

TEST_CASE("few numbers stand on a strip, those of the costliest", "[report][page]") {
    std::vector<assess::Change> changes;
    for (int bar = 1; bar <= 16; ++bar) {
        auto late = at(a_change(), 1, bar);
        late.verdict = assess::Verdict::late;
        late.lateness = time::from_milliseconds(90 + bar);
        changes.push_back(late);
    }
    const auto strip = section_of(report::take_html(report_of(changes)), "strip");
    CHECK(count_of(strip, "class=\"ms\"") == 5);
    CHECK(has(strip, ">106</text>"));
    CHECK(!has(strip, ">91</text>"));
}

TEST_CASE("missed, wrong and missing tones have shapes of their own, named below the strip",
          "[report][page]") {
    auto wrong = at(a_change(), 1, 6);
    wrong.tones = assess::Tones::wrong;
    auto lacks = at(a_change(), 1, 7);
    lacks.tones = assess::Tones::incomplete;
    const auto missed = at(not_struck(assess::Verdict::missed), 1, 5);
    const auto strip = section_of(report::take_html(report_of({missed, wrong, lacks})), "strip");
    for (const auto* sign : {"missed", "wrong", "incomplete"}) {
        INFO(sign);
        CHECK(count_of(strip, fmt::format("<path class=\"{}\"", sign)) == 2);
    }
    for (const auto* words : {"missed", "wrong tone", "tone missing"}) {
        INFO(words);
        CHECK(has(strip, std::string("</svg>\n") + words + "</span>"));
    }
}

TEST_CASE("a map has a row for each time through, darker where it cost more", "[report][page]") {
    auto late = at(a_change(), 1, 5);
    late.verdict = assess::Verdict::late;
    late.lateness = time::from_milliseconds(60);
    const auto missed = at(not_struck(assess::Verdict::missed), 2, 6);
    const auto page = report::take_html(report_of({late, missed, at(a_change(), 3, 7)}, 3));
    const auto map = section_of(page, "map");
    const auto picture = between(map, "<svg class=\"map\"", "</svg>");
    CHECK(count_of(picture, "class=\"shade0\"") == 1);
    CHECK(count_of(picture, "class=\"shade1\"") == 1);
    CHECK(count_of(picture, "class=\"shade4\"") == 1);
    CHECK(has(map, "1 of 3 times through had nothing to mend."));
    CHECK(has(map, "<th scope=\"row\">2nd</th>"));
}

TEST_CASE("one time through has no map, and one tempo no picture of tempi", "[report][page]") {
    const auto page = report::take_html(clumsy_report());
    CHECK(has_section(page, "strip"));
    CHECK(!has_section(page, "map"));
    CHECK(!has_section(page, "bytempo"));
}

TEST_CASE("a page of several tempi says how much was in time at each of them", "[report][page]") {
    auto report = clumsy_times(2);
    report.map = report.map.with(roadmap::Decision{9, roadmap::NewTempo{time::Bpm(140)}});
    const auto tempi = section_of(report::take_html(report), "bytempo");
    CHECK(has(tempi, "Changes in time: at 132 bpm 8 of 10, at 140 bpm 8 of 10."));
    CHECK(has(tempi, "class=\"under\""));
}

TEST_CASE("strums lie around the beat in two heaps, on beats and between them", "[report][page]") {
    const auto around = section_of(report::take_html(clumsy_times(4)), "around");
    CHECK(count_of(around, "<svg class=\"heap\"") == 2);
    CHECK(has(around, "On beats: "));
    CHECK(has(around, "Between beats: "));
    CHECK(has(around, "<th scope=\"col\">between beats</th>"));
    // The A7 of bar 2, four times 62 ms late; nothing between beats is.
    CHECK(has(around, "<th scope=\"row\">60 to 70 ms behind</th><td>4</td><td>0</td>"));
}

TEST_CASE("where the hand is asked for, a page says how far it went, and draws what lay nearer",
          "[report][page]") {
    auto report = clumsy_report();
    CHECK(!has_section(report::take_html(report), "hand"));
    auto small = a_jump(9);  // goes as far beyond the plan, but what is nearer spares less
    small.held_before = held("x x 8 8 8 8", "xx1111");
    small.nearer->move = guitar::move_between(guitar::Fretboard::standard(),
                                              held("x x 5 5 5 x", "xx111x"), small.nearer->grip);
    auto least = small;
    least.bar = 11;
    least.held_before = held("x x 9 9 9 9", "xx1111");
    least.frets = 1;
    report.hand = hand_of({least, small, a_jump(), a_jump(15)});
    const auto hand = section_of(report::take_html(report), "hand");
    CHECK(has(hand, "<p>Your fingers went 118 frets in one time through, the plan"));
    const auto jump = hand.find("<p class=\"what\">bar 7, Am7♭5 xx7888 → D7</p>");
    REQUIRE(jump != std::string::npos);
    const auto next = hand.find("<p class=\"what\">bar 9, Am7♭5 xx8888 → D7</p>");
    REQUIRE(next != std::string::npos);
    CHECK(jump < next);
    CHECK(has(hand, "bar 7, Am7♭5 xx7888 → D7: held x-x-10-11-10-x, nearer xx7778."));
    CHECK(has(hand, "<p>held: 8 frets</p>"));
    CHECK(has(hand, "<p>nearer: no fret</p>"));
    CHECK(count_of(hand, "<svg class=\"grip\"") ==
          4);  // bar 15 is as bar 7, of bar 11 less is to be said
    CHECK(has(hand,
              "<td>x-x-10-11-10-x</td><td>xx7778</td>"
              "<td>xx7778, no fret: 1 stays on string 4; you lifted it</td>"));
    for (auto& move : report.hand->moves) move.nearer.reset();
    CHECK(has(section_of(report::take_html(report), "hand"), "<p>the plan&#39;s: no fret</p>"));
    report.hand = practice::HandAgainstPlan{};
    CHECK(!has_section(report::take_html(report), "hand"));
}

TEST_CASE("by sound a page judges time alone, says so and draws no grip", "[report][page]") {
    const auto page = report::take_html(practice::by_time_alone(clumsy_times(2)));
    CHECK(has(page, "Heard by sound: time alone is judged, tones are not."));
    CHECK(has_section(page, "strip"));
    CHECK(!has_section(page, "grips"));
    CHECK(!has(page, "right tones"));
    CHECK(!has(page, "in time and right"));
}

TEST_CASE("a page of a take in which nothing was struck says so and draws nothing wrong",
          "[report][page]") {
    const auto map = through(eight_bars());
    const auto page = report::take_html(judged(map, {}));
    CHECK(has(page, "None of the 10 changes was struck"));
    CHECK(!has_section(page, "grips"));
    CHECK(!has_section(page, "around"));
    CHECK(markup_fault(page.substr(page.find("<html"))) == std::nullopt);
}

TEST_CASE("the same report makes the same page, on a machine of any language", "[report][page]") {
    const auto page = report::take_html(clumsy_times(2));
    std::setlocale(LC_NUMERIC, "de_DE.UTF-8");
    const auto in_german = report::take_html(clumsy_times(2));
    std::setlocale(LC_NUMERIC, "C");
    CHECK(in_german == page);
}

TEST_CASE("a page of an hour stays small", "[report][page]") {
    std::vector<assess::Change> changes;
    for (int time = 1; time <= 40; ++time) {
        for (int bar = 1; bar <= 32; ++bar) {
            auto late = at(a_change(), time, bar);
            late.verdict = assess::Verdict::late;
            late.lateness = time::from_milliseconds(60 + bar + time);
            changes.push_back(late);
        }
    }
    CHECK(report::take_html(report_of(changes, 40)).size() < 200'000);
}
