#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/road_map_text.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace compline;

namespace {

const std::filesystem::path folder = std::filesystem::path(COMPLINE_SOURCE_DIR) / "charts";

chart::Form form_of(const std::string& name) {
    return chart::unroll(chart::load_chart(folder / name));
}

}  // namespace

TEST_CASE("the blues has twelve bars in F at 132") {
    const auto form = form_of("blue-kettle-on-the-back-stairs.yaml");
    CHECK(form.bars.size() == 12);
    CHECK(form.chart.key.name() == "F");
    CHECK(form.chart.tempo == time::Bpm(132));
    CHECK(form.chart.feel() == chart::Feel::swing);
}

TEST_CASE("the AABA has thirty-two bars in E♭ at 160") {
    const auto form = form_of("three-lamps-on-weir-lane.yaml");
    CHECK(form.bars.size() == 32);
    CHECK(compline::tests::form_in_words(form.chart) == "A A B A");
    CHECK(form.chart.key.name() == "E♭");
    CHECK(form.chart.tempo == time::Bpm(160));
}

TEST_CASE("the minor tune has sixteen bars in C minor at 112") {
    const auto form = form_of("the-ferryman-counts-to-nine.yaml");
    CHECK(form.bars.size() == 16);
    CHECK(form.chart.key.name() == "Cm");
    CHECK(form.chart.tempo == time::Bpm(112));
}

TEST_CASE("the waltz has thirty-two bars of three at 150") {
    const auto form = form_of("waltz-for-a-leaning-chimney.yaml");
    CHECK(form.bars.size() == 32);
    CHECK(form.chart.meter == time::Meter(3));
    CHECK(form.chart.tempo == time::Bpm(150));
}

TEST_CASE("the bossa has thirty-two bars in D minor at 138, a bridge that swings, and kicks") {
    const auto form = form_of("salt-on-the-harbour-steps.yaml");
    CHECK(form.bars.size() == 32);
    CHECK(form.chart.key.name() == "Dm");
    CHECK(form.chart.tempo == time::Bpm(138));
    for (const auto& bar : form.bars) {
        CHECK(bar.manner.feel == (bar.section == "B" ? chart::Feel::swing : chart::Feel::bossa));
    }
    CHECK(form.bar(7).kicks == std::vector<time::Ticks>{time::Ticks(0), time::Ticks(2400)});
    CHECK(form.bar(32).kicks == std::vector<time::Ticks>{time::eighth_note, time::Ticks(2880)});
}

TEST_CASE("the tune in five has sixteen bars of three beats and two, at 152") {
    const auto form = form_of("five-stiles-to-the-mill.yaml");
    CHECK(form.bars.size() == 16);
    CHECK(form.chart.meter == time::Meter(5));
    CHECK(form.chart.tempo == time::Bpm(152));
    CHECK(form.chart.swing_at(time::Bpm(152)).off_beat() == Approx(0.62));
    const auto third = form.spans_of({3, 3});
    REQUIRE(third.size() == 2);
    CHECK(third[0].length == time::quarter_note * 3);
    CHECK(third[1].length == time::quarter_note * 2);
}

TEST_CASE("the ballad has thirty-two bars in D♭ at 66 and a road map of its own") {
    const auto form = form_of("a-coat-for-the-lighthouse-cat.yaml");
    CHECK(form.bars.size() == 32);
    CHECK(form.chart.key.name() == "D♭");
    CHECK(form.chart.tempo == time::Bpm(66));
    CHECK(form.chart.feel() == chart::Feel::ballad);
    const auto road_map = chart::own_road_map(form);
    REQUIRE(road_map.has_value());
    CHECK(road_map->bars_before(6) == 3 * 32 + 2 * 4);
    CHECK(road_map->held_ending);
    CHECK(chart::road_map_in_words(*road_map, form) ==
          "head (two-feel), solo (walking), head (two-feel), tag, held ending");
}

TEST_CASE("every chart in the folder can be read") {
    int charts = 0;
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        if (file.path().extension() != ".yaml") continue;
        INFO(file.path().string());
        CHECK_NOTHROW(chart::load_chart(file.path()));
        ++charts;
    }
    CHECK(charts >= 7);
}

TEST_CASE("the example of the charts' page is a chart") {
    std::ifstream stream(folder / "README.md");
    const std::string page((std::istreambuf_iterator<char>(stream)), {});
    const std::string fence = "```yaml\n";
    const auto start = page.find(fence);
    REQUIRE(start != std::string::npos);
    const auto from = start + fence.size();
    const auto text = page.substr(from, page.find("```", from) - from);
    CHECK(chart::unroll(chart::read_chart(text, "README.md")).bars.size() == 32);
}
