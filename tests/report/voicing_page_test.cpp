// The page for the music stand: what is on it, where, and what is not.

#include "report/planned.hpp"
#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"
#include "support/our_forms.hpp"

#include <compline/report/voicing_page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

using namespace compline;
using namespace compline::tests;
using report::PageWishes;
using report::Paper;

namespace {

constexpr double grid_mm = 13;  // the narrowest grid of six strings

std::string html_of(const report::Voicings& voicings, const PageWishes& wishes = {}) {
    return report::voicings_html(voicings, wishes);
}

std::vector<std::string> pages_of(const std::string& html) {
    std::vector<std::string> pages;
    for (auto at = html.find("<svg"); at != std::string::npos; at = html.find("<svg", at + 1)) {
        pages.push_back(html.substr(at, html.find("</svg>", at) - at));
    }
    return pages;
}

double number_at(const std::string& text, std::size_t at, const std::string& name) {
    return std::strtod(text.c_str() + text.find(name + "=\"", at) + name.size() + 2, nullptr);
}

/// A chord on the page: where its symbol stands, and whether a diagram does.
struct Drawn {
    double x;
    double y;
    double size;
    bool diagram;
};

std::vector<Drawn> changes_of(const std::string& page) {
    std::vector<Drawn> all;
    const std::string mark = "<g class=\"change\">";
    for (auto at = page.find(mark); at != std::string::npos; at = page.find(mark, at + 1)) {
        const auto part = page.substr(at, page.find(mark, at + 1) - at);
        all.push_back({number_at(part, 0, "x"), number_at(part, 0, "y"),
                       number_at(part, 0, "font-size"), has(part, "class=\"diagram\"")});
    }
    return all;
}

/// Of a form without endings: what is not written once for several times in a row.
int written_voicings(const report::Voicings& voicings) {
    const auto& form = voicings.form;
    const auto again = [&](int bar) {
        const int first = bar - form.bar(bar).bar_in_section + 1;
        return first > 1 && form.bar(first - 1).section == form.bar(bar).section;
    };
    const auto& all = voicings.plans[0].voicings;
    return static_cast<int>(
        std::count_if(all.begin(), all.end(), [&](const auto& v) { return !again(v.change.bar); }));
}

/// Changes of a row at least a grid's width apart, all of them on the paper.
void check_places(const std::string& page, double width, double height) {
    const auto all = changes_of(page);
    for (std::size_t i = 0; i < all.size(); ++i) {
        CHECK(all[i].x > 0);
        CHECK(all[i].x + (all[i].diagram ? grid_mm : 0) < width);
        CHECK(all[i].y + 15 < height);
        CHECK(all[i].size >= 4.9);  // 14 points
        if (i == 0 || all[i].y != all[i - 1].y) continue;
        CHECK(all[i].x - all[i - 1].x > (all[i - 1].diagram ? grid_mm + 2 : 3));
    }
}

}  // namespace

TEST_CASE("the page is well formed and needs nothing else", "[report]") {
    for (const auto& text :
         {html_of(voicings_of_four_doors()), report::voicings_svg(voicings_of_four_doors(), {})}) {
        CHECK(markup_fault(text) == std::nullopt);
        for (const char* never : {"<script", "javascript", "url(", "@import", "@font-face", "href",
                                  "src=", "<image", "<iframe", "onload"}) {
            INFO(never);
            CHECK_FALSE(has(text, never));
        }
        CHECK(count_of(text, "http:") == count_of(text, "http://www.w3.org/2000/svg"));
    }
}

TEST_CASE("the check of markup sees what is wrong with it", "[report]") {
    CHECK_FALSE(markup_fault("<a b=\"1\"><c/>x &amp; y</a>"));
    for (const char* wrong : {"<a>", "<a></b>", "<a><b></a></b>", "<a b=1></a>",
                              "<a b=\"1\" b=\"2\"/>", "<a>&</a>", "<a>\x01</a>", "x<a/>", "<a"}) {
        INFO(wrong);
        CHECK(markup_fault(wrong));
    }
}

TEST_CASE("each change has a diagram, and each finger its number", "[report]") {
    const auto html = html_of(voicings_of_four_doors());
    CHECK(count_of(html, "class=\"diagram\"") == 8);  // A comes again as it was
    CHECK(pages_of(html).size() == 1);
    // Fingers of all grips: 4 + 3 + 4 + 4 + 2, and 3 + 3 + 4; dots carry them in bold.
    int dots = 0;
    for (const char* finger : {"1", "2", "3", "4"}) {
        dots += count_of(html, fmt::format("text-anchor=\"middle\">{}<", finger)) +
                count_of(html, fmt::format("text-anchor=\"middle\" fill=\"#fff\">{}<", finger));
    }
    CHECK(dots == 17 + 10 + 2);               // and two in the legend
    CHECK(has(html, ">D♭</tspan>7</text>"));  // the root is larger than the rest
}

TEST_CASE("a finger that stays is a ring, one that slides has an arrow", "[report]") {
    report::Voicings voicings;
    voicings.form = form_in_rows({"Dm7 | G7"});
    // 3 slides from fret 5 to 4 on string 3; nothing stays, and back again.
    voicings.plans.push_back(
        plan_of(voicings.form, {1, 2}, {{"x 5 x 5 6 x", "x2x34x"}, {"x x 3 4 3 x", "xx132x"}}));
    const auto slid = html_of(voicings);
    voicings.plans[0] =
        plan_of(voicings.form, {1, 2}, {{"x 5 x 5 6 x", "x2x34x"}, {"x x 3 5 3 x", "xx132x"}});
    const auto stayed = html_of(voicings);
    constexpr int in_legend = 1;
    CHECK(count_of(slid, "<path d=\"M") == 2 + in_legend);
    CHECK(count_of(slid, "fill=\"#fff\" stroke") == in_legend);
    CHECK(count_of(stayed, "<path d=\"M") == in_legend);
    CHECK(count_of(stayed, "fill=\"#fff\" stroke") == 2 + in_legend);
}

TEST_CASE("a left-handed player's diagrams are mirrored", "[report]") {
    report::Voicings voicings;
    voicings.form = form_in_rows({"G7"});
    voicings.plans.push_back(plan_of(voicings.form, {1, 1}, {{"3 x x x x x", "2xxxxx"}}));
    const auto dot_x = [](const std::string& html) {
        const auto at = html.find("<circle");
        return number_at(html, at, "cx") - changes_of(pages_of(html).front()).front().x;
    };
    CHECK(dot_x(html_of(voicings)) == Approx(0));  // the grid begins where the symbol does
    CHECK(dot_x(html_of(voicings, {Paper::a4, report::Hand::left})) > grid_mm - 0.01);
}

TEST_CASE("the page has the size of its paper", "[report]") {
    const auto voicings = voicings_of_four_doors();
    CHECK(has(html_of(voicings), "@page { size: 210mm 297mm; margin: 0; }"));
    CHECK(has(html_of(voicings), "width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\""));
    const auto letter = html_of(voicings, {Paper::letter, report::Hand::right});
    CHECK(has(letter, "@page { size: 215.9mm 279.4mm; margin: 0; }"));
    CHECK(has(letter, "width=\"215.9mm\" height=\"279.4mm\""));
}

TEST_CASE("markup and control characters of a chart do not reach the page", "[report]") {
    auto voicings = voicings_of_four_doors();
    voicings.form.chart.title = "<b onload=\"x\">&\x01\x1B[2J 'q'\xC2\x9B \xFF</b>";
    for (auto& bar : voicings.form.bars) bar.section += "<i>";
    for (auto& section : voicings.form.chart.sections) section.name += "<i>";
    for (const auto& text : {html_of(voicings), report::voicings_svg(voicings, {})}) {
        CHECK(markup_fault(text) == std::nullopt);
        CHECK(has(text, "&lt;b onload=&quot;x&quot;&gt;&amp;[2J &#39;q&#39; &lt;/b&gt;"));
        CHECK(has(text, "A&lt;i&gt;"));
        CHECK_FALSE(has(text, "<b "));
        CHECK_FALSE(has(text, "<i>"));
    }
}

TEST_CASE("our charts stand on one page of either paper, each change apart from the next",
          "[report]") {
    for (const auto& form : tests::our_forms()) {
        const auto voicings = all_alike(form);
        for (const auto paper : {Paper::a4, Paper::letter}) {
            INFO(form.chart.title);
            const auto pages = pages_of(html_of(voicings, {paper, report::Hand::right}));
            REQUIRE(pages.size() == 1);
            const bool a4 = paper == Paper::a4;
            check_places(pages[0], a4 ? 210 : 215.9, a4 ? 297 : 279.4);
            // Drawn in full but for repeats: a player at the stand reads on.
            CHECK(count_of(pages[0], "class=\"diagram\"") == written_voicings(voicings));
        }
    }
}

TEST_CASE("whatever the chart, nothing overlaps and no change is lost", "[report]") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        const auto voicings = all_alike(AnyForm(seed).make());
        INFO("seed " << seed);
        const auto html = html_of(voicings, {Paper::letter, report::Hand::left});
        CHECK(markup_fault(html) == std::nullopt);
        int diagrams = 0;
        for (const auto& page : pages_of(html)) {
            check_places(page, 215.9, 279.4);
            diagrams += count_of(page, "class=\"diagram\"");
        }
        if (!has(html, " as bars ")) {
            CHECK(diagrams == written_voicings(voicings));
        }
    }
}

TEST_CASE("a section that comes again later is named where that keeps the tune on one page",
          "[report]") {
    std::string bars;
    for (int i = 0; i < 16; ++i) bars += i % 2 == 0 ? (i == 0 ? "Dm7" : " | Dm7") : " | G7";
    const auto form = form_from("  A: " + bars + "\n  B: Cm7 | F7\n", "[A, A, B, A, B, A]");
    const auto html = html_of(all_alike(form));
    CHECK(pages_of(html).size() == 1);
    CHECK(has(html, ">bars 35–50 as bars 1–16<"));
    CHECK(has(html, ">bars 51–52 as bars 33–34<"));
    CHECK_FALSE(has(html, "bars 17–32"));  // written once, with what is before it
    CHECK_FALSE(has(html, "into bar"));    // one and the same grip everywhere
    CHECK(count_of(html, "class=\"diagram\"") == 18);
}

TEST_CASE("how the hand gets to a section is said where it is not drawn again", "[report]") {
    std::string bars;
    for (int i = 0; i < 20; ++i) bars += i % 2 == 0 ? (i == 0 ? "Dm7" : " | Dm7") : " | G7";
    auto voicings =
        all_alike(form_from("  A: " + bars + "\n  B: Cm7 | F7\n", "[A, A, B, A, B, A]"));
    std::vector<Held> grips(84, {"5 x 5 6 8 x", "1x124x"});
    grips[41] = grips[63] = {"x 5 x 5 x x", "x2x3xx"};  // the F7 before an A
    voicings.plans[0] = plan_of(voicings.form, voicings.form.whole(), grips);
    CHECK(has(html_of(voicings),
              ">bars 43–62 as bars 1–20; into bar 43: 2 moves to string 3, up 1, 1 lands on "
              "string 4, 4 lands on string 2, 3 lifts<"));
}

TEST_CASE("a long tune takes several pages, in order and in full", "[report]") {
    std::string bars;
    for (int i = 0; i < 80; ++i) bars += i % 2 == 0 ? (i == 0 ? "Dm7" : " | Dm7") : " | G7";
    const auto voicings = all_alike(form_from("  A: " + bars + "\n", "[A, A]"));
    const auto html = html_of(voicings);
    const auto pages = pages_of(html);
    REQUIRE(pages.size() > 1);
    CHECK(count_of(html, "class=\"diagram\"") == 160);
    CHECK(has(pages[0], fmt::format(">1 of {}<", pages.size())));
    for (const auto& page : pages) check_places(page, 210, 297);
    const auto svg = report::voicings_svg(voicings, {});
    CHECK(markup_fault(svg) == std::nullopt);
    CHECK(count_of(svg, "<svg") == 1);
    CHECK(has(svg, fmt::format("viewBox=\"0 0 210 {}\"", 297 * pages.size())));
}

TEST_CASE("a bar that goes on has a simile mark, but not in front of a row", "[report]") {
    const auto html = html_of(all_alike(form_in_rows({"Dm7 | % | % | %", "% | G7 | N.C. | Dm7"})));
    CHECK(count_of(html, "class=\"diagram\"") == 3);
    // The chord in brackets, in front of the second row alone.
    CHECK(has(html, ">D</tspan>m7)</text>"));
    CHECK(count_of(html, ">(<tspan") == 1);
    CHECK(has(html, ">N.C.<"));
}

TEST_CASE("a chord that goes on in another voicing stands in brackets, with its diagram",
          "[report]") {
    report::Voicings voicings;
    voicings.form = form_in_rows({"Dm7 | %"});
    voicings.plans.push_back(plan_of(voicings.form, {1, 2}, {d_minor}));
    auto& plan = voicings.plans[0];
    plan.voicings.push_back(plan.voicings[0]);
    auto& later = plan.voicings[1];
    later.grip = held(high_d.frets, high_d.fingers);
    later.goes_on = true;
    later.change.bar = 2;
    later.change.in_form = time::Ticks(4 * 960);
    plan.moves = {guitar::move_between(plan.fretboard, later.grip, plan.voicings[0].grip),
                  guitar::move_between(plan.fretboard, plan.voicings[0].grip, later.grip)};
    const auto html = html_of(voicings);
    CHECK(count_of(html, "class=\"diagram\"") == 2);
    CHECK(has(html, ">(<tspan"));
    CHECK(has(report::voicings_text(voicings), "bar 2  Dm7  goes on: "));
    CHECK(has(report::voicings_json(voicings), "\"goes_on\": true"));
}

TEST_CASE("a page without any chord can be made", "[report]") {
    const auto html = html_of(all_alike(form_in_rows({"N.C. | %"})));
    CHECK(markup_fault(html) == std::nullopt);
    CHECK(count_of(html, ">N.C.<") == 2);
}

TEST_CASE("eight strings have room, and a capo is named", "[report]") {
    report::Voicings voicings;
    voicings.form = form_in_rows({"Dm7 G7 / C6"});
    const guitar::Fretboard eight(guitar::read_tuning("F#1 B1 E2 A2 D3 G3 B3 E4"), 24, 2);
    const std::vector<Held> grips(3, {"x x x 5 x 5 6 x", "xxx1x12x"});
    voicings.plans.push_back(plan_of(voicings.form, {1, 1}, grips, eight));
    const auto html = html_of(voicings);
    CHECK(has(html, "tuning F♯1 B1 E2 A2 D3 G3 B3 E4, capo 2"));
    const auto all = changes_of(pages_of(html).front());
    REQUIRE(all.size() == 3);
    CHECK(all[1].x - all[0].x > 7 * 2.6);
    CHECK(all[2].x - all[1].x > 7 * 2.6);
}
