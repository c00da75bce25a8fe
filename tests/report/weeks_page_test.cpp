// Weeks of practice, and homework, as pages to look at: what stands on them, and what never does.

#include "report/page_checks.hpp"
#include "report/planned.hpp"
#include "report/some_evenings.hpp"
#include "support/catch.hpp"

#include <compline/history/evenings.hpp>
#include <compline/report/weeks_page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <clocale>

using namespace compline;
using namespace compline::tests;

namespace {

history::TuneHistory drill() {
    auto tune = evenings_of({4, 4});
    tune.tune = two_five();
    return tune;
}

std::string page_of(const history::TuneHistory& tune,
                    const std::vector<report::HomeworkSoFar>& homework = {},
                    const report::WeeksAsked& asked = asked_by("")) {
    return report::tune_html(tune, homework, asked);
}

std::string page_of_all(const std::vector<history::TuneHistory>& tunes,
                        const report::WeeksAsked& asked = asked_by("")) {
    report::AllWeeks told;
    for (const auto& tune : tunes) told.tunes.push_back(report::weeks_of(tune, asked.since));
    told.homework = some_homework(asked.player);
    return report::weeks_html(tunes, told, asked);
}

report::HomeworkSheet sheet() {
    return {homework_of("Anna"), lantern_form(), all_alike(lantern_form(), chart::Passage{9, 12}),
            report::Hand::right, true};
}

std::string sheet_page(const report::HomeworkSheet& of) {
    return report::homework_html(of, asked_by("Anna"));
}

std::vector<std::string> every_page() {
    return {page_of(twelve_evenings(), {some_homework("").front()}),
            page_of_all({drill(), twelve_evenings(), evenings_of({4})}), sheet_page(sheet())};
}

int dots_in(const std::string& picture) { return count_of(picture, "class=\"evening\""); }

}  // namespace

TEST_CASE("pages of weeks and homework are well formed and lead by headings", "[report][page]") {
    for (const auto& page : every_page()) {
        CHECK(markup_fault(page.substr(page.find("<html"))) == std::nullopt);
        CHECK(has(page, "<html lang=\"en\">"));
        CHECK(count_of(page, "<h1>") == 1);
        CHECK(count_of(page, "<h2") == count_of(page, "<section"));
        CHECK(count_of(page, " id=\"") == count_of(page, "aria-labelledby=\""));
    }
}

TEST_CASE("behind every picture of weeks and homework stands a table, and words",
          "[report][page]") {
    for (const auto& page : every_page()) {
        const int pictures = count_of(page, "<figure>");
        CHECK(pictures >= 2);
        CHECK(count_of(page, "<table>") == pictures);
        CHECK(count_of(page, "role=\"img\" aria-label=\"") == pictures);
        CHECK(count_of(page, "aria-label=\"\"") == 0);
        CHECK(count_of(page, "<svg") == count_of(page, "aria-hidden=\"true\""));
    }
}

TEST_CASE("pages of weeks and homework forbid scripts and ask nobody for anything",
          "[report][page]") {
    for (const auto& page : every_page()) check_asks_nobody(page);
}

TEST_CASE("what tunes and pupils are called is never run by a page of weeks", "[report][page]") {
    auto tune = twelve_evenings();
    tune.tune.title = "<script>alert('1')</script> & \"<img src=x onerror=alert(2)>\x1b[31m";
    tune.tune.chart_file = "/charts/\"><script>4</script>.yaml";
    for (auto& place : tune.places) place.section = "<b>A</b>";
    const auto asked = asked_by("<i>Anna</i>\x07");
    auto homework = homework_of(asked.player);
    homework.tune = tune.tune;
    auto of = sheet();
    of.homework = homework;
    for (const auto& page : {page_of(tune, {{homework, {}}}, asked), page_of_all({tune}, asked),
                             report::homework_html(of, asked)}) {
        for (const auto* part : {"<script", "<img", "<b>", "<i>", "\x1b", "\x07"}) {
            INFO(part);
            CHECK(!has(page, part));
        }
        CHECK(has(page, "&lt;script&gt;"));
        CHECK(markup_fault(page.substr(page.find("<html"))) == std::nullopt);
    }
}

TEST_CASE("a page of a tune begins with what the history says of it, then what to play next",
          "[report][page]") {
    const auto page = page_of(twelve_evenings());
    const auto sentence = page.find("now at 118: better, and faster.</p>");
    const auto next = page.find(
        "<span>compline practice lantern-street.yaml</span> "
        "<span>--bars 6-8</span> <span>--ladder 106-118</span>");
    REQUIRE(sentence != std::string::npos);
    REQUIRE(next != std::string::npos);
    CHECK(sentence < next);
    CHECK(next < page.find("<section class=\"trend\""));
    CHECK(has(page, "as of 2026-11-30"));
    CHECK(has(section_of(page, "next"), "<p>Play bar 7, with the bar to come from:</p>"));
}

TEST_CASE("a page says when a tune is due again, its own and that of all", "[report][page]") {
    auto tune = evenings_of({4});
    tune.evenings.back().whole_times = 2;
    CHECK(has(page_of(tune), "The whole tune was due again on 3 November.</p>"));
    CHECK(has(page_of_all({tune}), "The whole tune was due again on 3 November.</p>"));
}

TEST_CASE("each evening is a dot as high as its share, from the first day to the last",
          "[report][page]") {
    // 9 of 12, then 5 of 12, a day apart.
    const auto trend = section_of(page_of(evenings_of({4, 2}, 1)), "trend");
    const auto picture = between(trend, "<svg class=\"evenings shares\"", "</svg>");
    CHECK(dots_in(picture) == 2);
    // 40 % lies at 232 below, 100 % at 22.
    CHECK(has(picture, "cx=\"114\" cy=\"109.5\""));
    CHECK(has(picture, "cx=\"776\" cy=\"226.17\""));
    CHECK(has(picture, ">2 Nov</text>"));
    CHECK(has(picture, ">40 %</text>"));
    CHECK(has(trend, "<th scope=\"row\">2026-11-03</th><td>42 %</td><td>12</td><td>120</td>"));
}

TEST_CASE("where nine in ten lies is drawn, and named below", "[report][page]") {
    const auto trend = section_of(page_of(evenings_of({4, 2}, 1)), "trend");
    CHECK(has(trend, "<path class=\"wanted\" d=\"M100 57L790 57\"/>"));
    CHECK(has(trend, "</svg>\nnine in ten</span>"));
}

TEST_CASE("a line through the evenings is drawn only where there is a change to be seen",
          "[report][page]") {
    const auto picture = [](const history::TuneHistory& tune) {
        return between(section_of(page_of(tune), "trend"), "<svg class=\"evenings shares\"",
                       "</svg>");
    };
    CHECK(count_of(picture(twelve_evenings()), "class=\"course\"") == 1);
    const auto worse = evenings_of({4, 4, 4, 3, 3, 3, 2, 2, 2, 1, 1, 1});
    CHECK(count_of(picture(worse), "class=\"course\"") == 1);
    CHECK(has(page_of(twelve_evenings()), "</svg>\nwhere it goes</span>"));
    const auto even = evenings_of({3, 3, 2, 3, 3, 2, 3, 3});
    CHECK(!has(picture(even), "class=\"course\""));
    CHECK(!has(page_of(even), "where it goes"));
    CHECK(!has(picture(evenings_of({1, 2, 3})), "class=\"course\""));
}

TEST_CASE("the tempo is drawn below the evenings where it differs, else it is said",
          "[report][page]") {
    const auto has_picture = [](const history::TuneHistory& tune) {
        return has(page_of(tune), "<svg class=\"evenings tempo\"");
    };
    CHECK(has_picture(twelve_evenings()));
    CHECK(has(page_of(twelve_evenings()), ">108</text>"));
    CHECK(has(page_of(twelve_evenings()), ">119</text>"));
    auto same = evenings_of({4, 3, 4});
    CHECK(!has_picture(same));
    CHECK(has(page_of(same), "all at 120 bpm"));
    same.evenings.front().usual_bpm = 0;  // not known
    CHECK(!has_picture(same));
    CHECK(has(page_of(same), "all at 120 bpm"));
}

TEST_CASE("evenings of two years have them below the picture", "[report][page]") {
    const auto page = page_of(evenings_of({4, 3}, 60));
    CHECK(has(page, ">2 November 2026</text>"));
    CHECK(has(page, ">1 January 2027</text>"));
    CHECK(
        has(page_of(evenings_of({4})), "class=\"number middle\" x=\"445\" y=\"272\">2 Nov</text>"));
}

TEST_CASE("a bar stands as high as it costs, and is marked where it is weak of late",
          "[report][page]") {
    // Of four changes three are missed in bar 7, and one in each of two others: 0.75, 0.25, 0.25.
    const auto bars = section_of(page_of(evenings_of({3, 3, 3})), "bars");
    const auto picture = between(bars, "<svg class=\"form\"", "</svg>");
    CHECK(has(picture, "<path class=\"under\" d=\"M364.8 6h50.4v150h-50.4z\"/>"));
    CHECK(has(picture, "d=\"M4.8 106h50.4v50h-50.4z\"/>"));
    CHECK(has(bars, "What each of 3 bars costs: bar 7 most."));
    CHECK(has(bars, "<th scope=\"row\">7</th><td>A</td><td>3 of 12</td><td>0.75</td>"));
}

TEST_CASE("a bar of two chords costs what both cost", "[report][page]") {
    Weeks weeks;
    for (const int day : {0, 2, 4}) {
        weeks.on(day, {{5, 4, 2, "F6", "Dm7"}, {5, 4, 3, "Dm7", "G7"}});
    }
    CHECK(has(section_of(page_of(weeks.it), "bars"),
              "<th scope=\"row\">5</th><td>A</td><td>15 of 24</td><td>0.75</td>"));
}

TEST_CASE("below the bars of a long form numbers stand as far apart as they can be read",
          "[report][page]") {
    auto tune = evenings_of({3, 3, 3});
    tune.bars = 64;
    const auto form = between(page_of(tune), "<svg class=\"form\"", "</svg>");
    CHECK(has(form, ">1</text>"));
    CHECK(!has(form, ">5</text>"));
    CHECK(has(form, ">9</text>"));
    CHECK(has(form, ">57</text>"));
}

TEST_CASE("the weakest places stand with their evenings, or it is said that none is weak",
          "[report][page]") {
    const auto weakest = section_of(page_of(twelve_evenings()), "weakest");
    CHECK(has(weakest, "<p class=\"what\">bar 7  Am7♭5 → D7</p>"));
    CHECK(dots_in(between(weakest, "<svg class=\"evenings small\"", "</svg>")) == 12);
    auto clean = evenings_of({4, 4, 4});
    clean.places.erase(std::remove_if(clean.places.begin(), clean.places.end(),
                                      [](const auto& place) { return place.bar == 7; }),
                       clean.places.end());
    CHECK(!has_section(page_of(clean), "weakest"));
    CHECK(!has_section(page_of(clean), "next"));
    CHECK(has(page_of(clean), "No place is weak that was played often enough to say so."));
}

TEST_CASE("time by tempo has the whole tune beside bars of it, tempi that are alike together",
          "[report][page]") {
    const auto tempi = section_of(page_of(twelve_evenings()), "bytempo");
    CHECK(has(tempi, "<th scope=\"row\">108-112</th><td>-</td><td>44 of 80</td><td>1 of 10</td>"));
    CHECK(has(tempi, "<th scope=\"row\">119</th><td>58 of 64</td><td>-</td><td>2 of 3</td>"));
    CHECK(count_of(between(tempi, "<svg class=\"tempi\"", "</svg>"), "class=\"over\"") == 1);
    CHECK(count_of(between(tempi, "<svg class=\"tempi\"", "</svg>"), "class=\"hollow\"") == 1);
    auto one = twelve_evenings();
    one.tempi.resize(1);
    CHECK(!has_section(page_of(one), "bytempo"));
}

TEST_CASE("evenings before a day are not on a page that leaves them out", "[report][page]") {
    auto asked = asked_by("");
    asked.since = "2026-11-20";
    const auto page = page_of(twelve_evenings(), {}, asked);
    CHECK(has(page, "since 2026-11-20, as of 2026-11-30"));
    CHECK(dots_in(between(page, "<svg class=\"evenings shares\"", "</svg>")) == 3);
    CHECK(dots_in(between(page, "<svg class=\"evenings small\"", "</svg>")) == 3);
    CHECK(has(section_of(page, "bars"), "<th scope=\"row\">7</th><td>A</td><td>3 of 12</td>"));
}

TEST_CASE("a page of all tunes has a heading and the evenings of each, and drills in a list",
          "[report][page]") {
    const auto page = page_of_all({drill(), twelve_evenings(), evenings_of({4})});
    CHECK(count_of(page, ">Lantern Street</h2>") == 2);
    CHECK(count_of(page, "<svg class=\"evenings shares\"") == 2);
    const auto drills = section_of(page, "drills");
    CHECK(has(drills, "<li>Dm7 | G7 | Cmaj7: "));
    CHECK(!has(drills, "<svg"));
    CHECK(has(page_of_all({}), "Nothing was played that was kept."));
}

TEST_CASE("of many tunes those that were played last are drawn, and the others listed",
          "[report][page]") {
    std::vector<history::TuneHistory> tunes(9, evenings_of({4, 3}));
    tunes.front() = drill();
    tunes.back().tune.title = "Kept for Winter";
    const auto page = page_of_all(tunes);
    CHECK(count_of(page, "<svg class=\"evenings shares\"") == 6);
    CHECK(count_of(section_of(page, "earlier"), "<li>") == 2);
    CHECK(has(section_of(page, "earlier"), "<li>Kept for Winter: last played on 4 November, "));
    tunes.resize(7);
    CHECK(!has_section(page_of_all(tunes), "earlier"));
}

TEST_CASE("a page of all tunes tells of homework as long as the words do", "[report][page]") {
    const auto homework = section_of(page_of_all({twelve_evenings()}), "homework");
    CHECK(has(homework, "bars 9-12 of Lantern Street, 96 to 120 bpm: clean at 120 on 1 of 2 days"));
    CHECK(has(homework, "bar 7 of Lantern Street, 96 to 120 bpm: done on Wednesday"));
    CHECK(!has(homework, "bars 1-2"));
}

TEST_CASE("a sheet of homework has the bars, grips, what to do, when it is done, and the line",
          "[report][page]") {
    const auto page = sheet_page(sheet());
    CHECK(has(page, "<h1>Homework for Anna</h1>"));
    CHECK(has(page, "Lantern Street, bars 9-12, 96 to 120 bpm"));
    CHECK(has(page, "key of D · given 2026-11-03"));
    CHECK(has(section_of(page, "passage"), "<th scope=\"row\">10</th><td>A7</td>"));
    CHECK(count_of(section_of(page, "grips"), "<svg class=\"grip\"") == 4);
    CHECK(has(section_of(page, "grips"), "<td>5x568x</td>"));
    CHECK(has(section_of(page, "done"), "It is clean at 120 bpm, two times through in a row"));
    CHECK(count_of(page, "<span class=\"tick\">&#160;</span>") == history::days_wanted);
    CHECK(has(page,
              "<span>compline practice lantern-street.yaml</span> <span>--bars 9-12</span> "
              "<span>--ladder 96-120</span> <span>--player Anna</span>"));
    CHECK(has(section_of(page, "care"), "stop when it hurts"));
}

TEST_CASE("a sheet without grips has none, and a left-handed pupil's are turned",
          "[report][page]") {
    auto bare = sheet();
    bare.grips.reset();
    CHECK(!has_section(sheet_page(bare), "grips"));
    auto left = sheet();
    left.hand = report::Hand::left;
    CHECK(section_of(sheet_page(left), "grips") != section_of(sheet_page(sheet()), "grips"));
}

TEST_CASE("the same weeks make the same page, on a machine of any language", "[report][page]") {
    const auto pages = every_page();
    std::setlocale(LC_NUMERIC, "de_DE.UTF-8");
    const auto in_german = every_page();
    std::setlocale(LC_NUMERIC, "C");
    CHECK(in_german == pages);
}

TEST_CASE("a page of years stays small", "[report][page]") {
    const auto years = evenings_of(std::vector<int>(500, 3), 1);
    CHECK(page_of(years).size() < 400'000);
}
