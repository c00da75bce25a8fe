// How the page for the music stand writes a form: what comes again, and the signs of the way
// through it.

#include "report/planned.hpp"
#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"
#include "support/our_forms.hpp"

#include <compline/report/voicing_page.hpp>

#include <algorithm>
#include <cstdlib>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr const char* repeat_dot = "r=\"0.4\"";
constexpr const char* diagram = "class=\"diagram\"";
constexpr const char* heavy_line = "stroke-width=\"0.9\"";
constexpr const char* kick = "class=\"kick\"";
constexpr const char* fermata = " a 1.7 1.7 ";
constexpr const char* coda_ring = "r=\"1.1\"";
constexpr const char* segno = " c -0.8 -0.9 ";
constexpr const char* hook = "stroke-width=\"0.3\"";

chart::Form read(const std::string& above, const std::string& sections) {
    return chart::unroll(chart::read_chart(above + chart_text(sections), "t.yaml"));
}

std::string html_of(const report::Voicings& voicings) {
    return report::voicings_html(voicings, {});
}

std::string html_of(const std::string& above, const std::string& sections) {
    const auto form = read(above, sections);
    return html_of(all_alike(form, form.all()));
}

/// With another grip at one change than everywhere else.
std::string with_another_grip(const chart::Form& form, std::size_t at) {
    auto voicings = all_alike(form, form.all());
    std::vector<Held> grips(voicings.plans[0].voicings.size(), {"5 x 5 6 8 x", "1x124x"});
    grips.at(at) = d_minor;
    voicings.plans[0] = plan_of(form, form.all(), grips);
    return html_of(voicings);
}

int signs_of_repeat(const std::string& html) { return count_of(html, repeat_dot) / 2; }

const char* const two_endings = "  A: {bars: Dm7 | G7, endings: {1: Am7 D7, 2: Cmaj7}}\n";

}  // namespace

TEST_CASE("what the hand plays alike twice in a row is drawn once, between repeat signs",
          "[report]") {
    const auto html = html_of("form: [A x2, B]\n", "  A: Dm7 | G7\n  B: C6\n");
    CHECK(signs_of_repeat(html) == 2);
    CHECK(count_of(html, diagram) == 3);
    CHECK(has(html, ">5</text>"));  // bars keep their numbers: B is bar 5
    CHECK(count_of(html_of("form: [A x3]\n", "  A: Dm7 | G7\n"), ">3 times<") == 1);
}

TEST_CASE("a section is written out where the hand holds something else the second time",
          "[report]") {
    const auto form = read("form: [A x2]\n", "  A: Dm7 | G7 | C6\n");
    const auto html = with_another_grip(form, 4);
    CHECK(signs_of_repeat(html) == 0);
    CHECK(count_of(html, diagram) == 6);
}

TEST_CASE("of three times that which differs is written out, the others once", "[report]") {
    const auto form = read("form: [A x3]\n", "  A: Dm7 | G7 | C6\n");
    CHECK(count_of(with_another_grip(form, 7), diagram) == 6);  // in the third
    CHECK(signs_of_repeat(with_another_grip(form, 7)) == 2);
    CHECK(count_of(with_another_grip(form, 4), diagram) == 9);  // in the second
}

TEST_CASE("another way into its first chord does not write a section out", "[report]") {
    // Once from the last chord of B, once from its own.
    const auto form = read("form: [A x2, B]\n", "  A: Dm7 | G7\n  B: C6\n");
    const auto html = with_another_grip(form, 4);
    CHECK(signs_of_repeat(html) == 2);
    CHECK(count_of(html, diagram) == 3);
}

TEST_CASE("endings stand under brackets with their numbers", "[report]") {
    const auto html = html_of("form: [A x2]\n", two_endings);
    CHECK(count_of(html, ">1.<") == 1);
    CHECK(count_of(html, ">2.<") == 1);
    CHECK(count_of(html, hook) == 4);
    CHECK(count_of(html, diagram) == 5);
    CHECK(signs_of_repeat(html) == 2);
    CHECK(count_of(html, heavy_line) >= 3);  // and the end
}

TEST_CASE("where what is before the endings is held otherwise, each ending has its own beginning",
          "[report]") {
    const auto html = with_another_grip(read("form: [A x2]\n", two_endings), 5);
    CHECK(signs_of_repeat(html) == 0);
    CHECK(count_of(html, diagram) == 7);
    CHECK(count_of(html, ">1.<") == 1);
    CHECK(count_of(html, ">2.<") == 1);
}

TEST_CASE("a passage that cuts a repeat is written out, one that has all of it is not",
          "[report]") {
    const auto form = read("form: [A x2, B]\n", "  A: Dm7 | G7\n  B: C6\n");
    const auto cut = html_of(all_alike(form, chart::Passage{2, 5}));
    CHECK(signs_of_repeat(cut) == 0);
    CHECK(count_of(cut, diagram) == 4);
    const auto whole = html_of(all_alike(form, chart::Passage{1, 4}));
    CHECK(signs_of_repeat(whole) == 2);
    CHECK(count_of(whole, diagram) == 2);
}

TEST_CASE("segno, coda, fine and the road map are on the page, of a passage only its own signs",
          "[report]") {
    const auto form = read(
        "form: [A x2, B, A]\nsegno: B\nto coda: \"A@3:1\"\nfine: \"A@2:2\"\n"
        "road map: \"head; D.S. al coda\"\n",
        "  A: Dm7 | G7\n  B: C6 | A7\n  Coda: F6\n");
    const auto html = html_of(all_alike(form, form.all()));
    CHECK(count_of(html, segno) == 1);
    CHECK(count_of(html, coda_ring) == 2);  // where it leaves, where it goes
    CHECK(count_of(html, ">to coda<") == 1);
    CHECK(count_of(html, ">fine<") == 1);
    CHECK(has(html, ">head, D.S. "));
    const auto passage = html_of(all_alike(form, chart::Passage{1, 2}));
    for (const char* never : {segno, ">to coda<", ">fine<", ">head, D.S. "}) {
        INFO(never);
        CHECK_FALSE(has(passage, never));
    }
}

TEST_CASE("kicks are accents, a held chord has a fermata, what is optional is in brackets",
          "[report]") {
    const auto html = html_of("", "  A: Dm7! | G7~4 | (C6) A7 | D7! / /&! N.C.!\n");
    CHECK(count_of(html, kick) == 4);
    CHECK(count_of(html, fermata) == 1);
    CHECK(has(html, ">(<tspan"));
    CHECK(has(html, ">C</tspan>6)</text>"));
}

TEST_CASE("words stand over their bar, of one that is written once each time's", "[report]") {
    const auto cue = [](const std::string& cues) {
        return html_of("form: [A x2, B]\ncues: {" + cues + "}\n", "  A: Dm7 | G7\n  B: C6\n");
    };
    CHECK(has(cue("B: all together"), ">all together<"));
    CHECK(has(cue("\"A@2:2\": drums alone"), ">2nd time: drums alone<"));
    CHECK(has(cue("\"A@1:2\": soft, \"A@2:2\": loud"), ">1st time: soft; 2nd time: loud<"));
    CHECK(has(cue("\"A@1:2\": soft, \"A@2:2\": soft"), ">soft<"));
}

TEST_CASE("a section says what it has of its own, and each meter stands where it begins",
          "[report]") {
    const auto html = html_of("form: [A, B, A]\nlead-in: {beats: 2, chords: C7}\n",
                              "  A: Dm7\n  B: {key: D, meter: 3/4, tempo: 144, bars: Em7 | A7}\n");
    CHECK(has(html, ">key of D, 3/4, 144 bpm<"));
    CHECK(has(html, ">key of F, 4/4, 120 bpm<"));  // behind it
    CHECK(has(html, " · lead-in: C7<"));
    CHECK(count_of(html, "font-size=\"6\" font-weight=\"bold\">3<") == 1);
    CHECK(count_of(html, "font-size=\"6\" font-weight=\"bold\">4<") == 3);  // 3/4, 4/4 again
}

TEST_CASE("chords in free time, which have no voicings, are not shown as if they went on",
          "[report]") {
    const auto html =
        html_of("form: [A, B]\n", "  A: {tempo: rubato, bars: Dm7 | G7}\n  B: C6 | F6\n");
    CHECK(count_of(html, diagram) == 2);
    CHECK_FALSE(has(html, ">(<tspan"));
    CHECK(has(html, ">rubato<"));
}

TEST_CASE("what comes again stays on one page where there are several", "[report]") {
    std::string bars = "Dm7 | G7";
    for (int i = 0; i < 9; ++i) bars += " | Dm7 | G7";
    const auto html = html_of("form: [A x2, B x2, C x2]\n",
                              "  A: " + bars + "\n  B: " + bars + "\n  C: " + bars + "\n");
    CHECK(count_of(html, "<svg") == 3);
    for (auto at = html.find("<svg"); at != std::string::npos; at = html.find("<svg", at + 1)) {
        CHECK(signs_of_repeat(html.substr(at, html.find("</svg>", at) - at)) == 2);
    }
}

TEST_CASE("a chart of ours that has endings, meters and free time stands on one page as planned",
          "[report]") {
    const auto forms = all_our_forms();
    const auto form = std::find_if(forms.begin(), forms.end(), [](const auto& one) {
        return one.chart.title == "The Miller Winds His Clock";
    });
    REQUIRE(form != forms.end());
    report::Voicings voicings;
    voicings.form = *form;
    voicings.plans = guitar::plan_voicings(*form, form->all(), form->chart.tempo,
                                           guitar::Fretboard::standard(), {});
    for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
        const auto html = report::voicings_html(voicings, {paper, report::Hand::right});
        CHECK(count_of(html, "<svg") == 1);
        CHECK(count_of(html, ">1. 2.<") == 1);
        CHECK(signs_of_repeat(html) == 2);
    }
}

TEST_CASE("no sign of a repeat touches a diagram, whatever form of ours", "[report]") {
    const auto number = [](const std::string& text, std::size_t at, const std::string& name) {
        return std::strtod(text.c_str() + text.find(name + "=\"", at) + name.size() + 2, nullptr);
    };
    int seen = 0;
    for (const auto& form : all_our_forms()) {
        INFO(form.chart.title);
        const auto html = html_of(all_alike(form, form.all()));
        CHECK(markup_fault(html) == std::nullopt);
        for (auto dot = html.find(repeat_dot); dot != std::string::npos;
             dot = html.find(repeat_dot, dot + 1)) {
            const auto circle = html.rfind("<circle", dot);
            const double x = number(html, circle, "cx");
            const double y = number(html, circle, "cy");
            for (auto at = html.find(diagram); at != std::string::npos;
                 at = html.find(diagram, at + 1)) {
                // Its lowest string, as high as its grid.
                const double left = number(html, at, "x1");
                if (y < number(html, at, "y1") || y > number(html, at, "y2")) continue;
                CHECK((x < left - 4.5 || x > left + 14));  // the fret's number stands there
                ++seen;
            }
        }
    }
    CHECK(seen > 40);
}
