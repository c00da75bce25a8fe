#include "../../src/report/guide_tones_text.hpp"

#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"

#include <compline/report/columns.hpp>

#include <sstream>

using namespace compline;

namespace {

guitar::VoicingPlan line_of(const chart::Form& form) {
    guitar::VoicingWishes wishes;
    wishes.style = guitar::VoicingStyle::guide_tones;
    return guitar::plan_voicings(form, form.whole(), form.chart.tempo,
                                 guitar::Fretboard::standard(), wishes)
        .front();
}

}  // namespace

TEST_CASE("the line of guide tones is written out voice by voice", "[report]") {
    const auto form = tests::make_form(time::Meter{4}, time::Bpm(120), {"Dm7", "G7", "Cmaj7", "%"});
    CHECK(report::guide_tones_text(form, line_of(form)) ==
          "Guide tones, on strings 4 and 3 (4 first)\n"
          "\n"
          "A, bars 1-4\n"
          "  bar 1  Dm7    fret  3  F, ♭3    up 1     fret  5  C, ♭7    up 1\n"
          "  bar 2  G7     fret  3  F, ♭7    stays    fret  4  B, 3     down 1\n"
          "  bar 3  Cmaj7  fret  2  E, 3     down 1   fret  4  B, 7     stays\n"
          "\n"
          "  of 6 voices that go on 2 stay and 4 move a semitone\n"
          "\n");
}

TEST_CASE("a section that comes again with the same line is named", "[report]") {
    for (const auto& form : tests::our_forms()) {
        const auto text = report::guide_tones_text(form, line_of(form));
        std::istringstream lines(text);
        std::string line;
        while (std::getline(lines, line)) CHECK(report::columns_of(line) <= 80);
        const bool has_second_a = form.chart.title == "Three Lamps on Weir Lane";
        if (has_second_a) CHECK(text.find("A again, bars 9-16: as bars 1-8") != std::string::npos);
    }
}

TEST_CASE("where there is no chord there is no line", "[report]") {
    const auto form = tests::make_form(time::Meter{4}, time::Bpm(120), {"N.C."});
    CHECK(report::guide_tones_text(form, line_of(form)).empty());
}
