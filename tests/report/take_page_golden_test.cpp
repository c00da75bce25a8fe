// Each picture of a page as a golden file, to be looked at when it changes.

#include "../../src/report/take_page_beat.hpp"
#include "../../src/report/take_page_grips.hpp"
#include "../../src/report/take_page_map.hpp"
#include "../../src/report/take_page_strip.hpp"
#include "../../src/report/take_page_tempi.hpp"
#include "report/rehearsed.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"

using namespace compline;
using namespace compline::tests;

namespace {

/// The clumsy hand's eight bars three times, the last time faster.
practice::Report three_times() {
    const auto map = through(eight_bars(), 3).with({17, roadmap::NewTempo{time::Bpm(140)}});
    std::vector<Strum> strums;
    for (int time = 0; time < 3; ++time) {
        for (auto strum : clumsy_hand()) {
            strum.bar += 8 * time;
            strum.late_ms += 15 * time;
            strums.push_back(strum);
        }
    }
    return judged(map, play(strums, map));
}

void check_picture(const report::PagePart& part, const std::string& name) {
    check_golden(report::markup_of(part), "report/golden/page-" + name + ".html");
}

}  // namespace

TEST_CASE("the strip along the form is the golden file", "[report][page][golden]") {
    const auto report = three_times();
    check_picture(report::strip_part(report, practice::places_of(report)), "strip");
}

TEST_CASE("the map of every time through is the golden file", "[report][page][golden]") {
    check_picture(report::map_part(three_times()), "map");
}

TEST_CASE("the grips held and due are the golden file", "[report][page][golden]") {
    check_picture(report::grips_part(three_times(), report::Hand::right), "grips");
}

TEST_CASE("the picture of time by tempo is the golden file", "[report][page][golden]") {
    check_picture(report::tempi_part(three_times()), "tempi");
}

TEST_CASE("the strums around the beat are the golden file", "[report][page][golden]") {
    check_picture(report::beat_part(three_times()), "around");
}

TEST_CASE("a left-handed player's grips have the low string on the right", "[report][page]") {
    const auto right = report::grips_part(clumsy_report(), report::Hand::right);
    const auto left = report::grips_part(clumsy_report(), report::Hand::left);
    CHECK(right.picture != left.picture);
    CHECK(right.table == left.table);
}
