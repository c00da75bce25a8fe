// Takes of "compline.take/1", as they were written once: they are read and judged as they were
// then. What was said of each of them then stands here.

#include "support/catch.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/text/bad_input.hpp>

#include <cmath>
#include <filesystem>
#include <string>

using namespace compline;
using assess::Verdict;

namespace {

const std::filesystem::path folder =
    std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests/practice/takes-1";

practice::Take old_take(const std::string& name) {
    return practice::read_take(midi::read_smf(files::load_bytes(folder / (name + ".mid"))).file);
}

chart::Form form_of(const std::string& name) {
    return chart::unroll(chart::load_chart(folder / (name + ".yaml")));
}

practice::Report judged(const std::string& take, const std::string& chart) {
    return practice::hear_and_judge(form_of(chart), old_take(take), {});
}

int silent_bars(const roadmap::RoadMap& map) {
    int silent = 0;
    for (std::int64_t bar = 1; bar <= map.bars().value(); ++bar) silent += map.bar(bar).is_silent();
    return silent;
}

/// The text of a take of version 1, with other pieces in it.
std::string text_with(const std::string& piece, const std::string& with) {
    std::string text =
        R"({"schema":"compline.take/1","chart":"0123456789abcdef","tempo_bpm":132.0,)"
        R"("bars":[9,12],"times_through":3,"silent_bars":[4,5,9],"swing":"62%",)"
        R"("placement_ms":"bass +8, ride -4","calibration":{"constant_ms":7.25,"cycles":1.5},)"
        R"("settings":{"rhythm":"1 2&","strictness":"written","against":"beat"}})";
    const auto at = text.find(piece);
    REQUIRE(at != std::string::npos);
    return text.replace(at, piece.size(), with);
}

std::string refusal(const std::string& text) {
    try {
        (void)practice::read_info(text);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a take of version 1 with silences is judged as it was, its drift included") {
    const auto report = judged("silences", "three-lamps-on-weir-lane");
    const auto& totals = report.assessment.totals;
    CHECK(totals.changes == 113);
    CHECK(totals.uncertain == 1);
    CHECK(totals.count(Verdict::on_time) == 106);
    CHECK(totals.count(Verdict::pushed) == 5);
    CHECK(totals.count(Verdict::late) == 1);
    CHECK(totals.count(Verdict::missed) == 1);
    CHECK(totals.right_tones == 111);
    CHECK(std::lround(report.assessment.time.drift_ms_per_bar.value() * 1000) == 30);
    CHECK(silent_bars(report.map) == 32);
    CHECK(report.map.bar(5).is_silent());
    CHECK_FALSE(report.map.bar(7).is_silent());
    CHECK(report.machine->xruns == 1);
}

TEST_CASE("a take of version 1 that was played by a road map is judged as it was") {
    const auto report = judged("road-map", "three-lamps-on-weir-lane");
    CHECK(report.map.times_through() == 7);
    CHECK(report.assessment.totals.changes == 170);
    CHECK(report.assessment.totals.count(Verdict::on_time) == 147);
    CHECK(report.assessment.totals.count(Verdict::placed) == 5);
    CHECK(std::lround(report.assessment.time.all.mean_ms.value() * 1000) == 1092);
    CHECK(silent_bars(report.map) == 64);
}

TEST_CASE("a take of version 1 that was cut short is judged as far as it goes") {
    const auto take = old_take("cut-short");
    CHECK_FALSE(take.info->ended);
    CHECK(take.info->asked.way.goes_on);
    const auto report = judged("cut-short", "blue-kettle-on-the-back-stairs");
    CHECK(report.map.times_through() == 2);
    CHECK(report.assessment.totals.changes == 25);
    CHECK(report.assessment.totals.count(Verdict::on_time) == 20);
}

TEST_CASE("a take of version 1 played to no band, or without drums, is judged as it was") {
    const auto alone = judged("no-band", "blue-kettle-on-the-back-stairs");
    CHECK(alone.assessment.totals.count(Verdict::placed) == 46);
    CHECK(std::lround(alone.assessment.time.drift_ms_per_bar.value() * 1000) == 285);
    CHECK(silent_bars(alone.map) == 36);
    const auto drums_out = judged("drums-out", "salt-on-the-harbour-steps");
    CHECK(drums_out.assessment.totals.count(Verdict::on_time) == 92);
    CHECK(drums_out.settings.strictness == harmony::Strictness::substitutions);
    CHECK_FALSE(drums_out.assessment.time.drift_ms_per_bar.has_value());
}

TEST_CASE("what version 1 says of a take is read whole") {
    const auto info = practice::read_info(text_with("[4,5,9]", "[4,5,9]")).value();
    CHECK(info.version == 1);
    CHECK(info.ended);
    CHECK(info.chart_text.empty());
    CHECK(info.asked.way == chart::Way::of({9, 12}, 3));
    CHECK(info.asked.tempo == time::Bpm(132));
    CHECK(info.asked.swing->ratio.value() == Approx(0.62 / 0.38));
    CHECK(info.stage.seat(band::Chair::bass).behind.milliseconds() == Approx(8));
    CHECK(info.stage.seat(band::Chair::ride).behind.milliseconds() == Approx(-4));
    CHECK(info.settings.strictness == harmony::Strictness::written);
    CHECK(info.settings.rhythm->name() == "1 2&");
    using roadmap::everybody;
    using roadmap::LaysOut;
    const std::vector<roadmap::Decision> silences{{5, LaysOut{everybody}},
                                                  {7, LaysOut{everybody, false}},
                                                  {10, LaysOut{everybody}},
                                                  {11, LaysOut{everybody, false}}};
    CHECK(info.decisions() == silences);
    // The earliest ones do not say what they were judged against.
    const auto earliest = practice::read_info(text_with(R"(,"against":"beat")", "")).value();
    CHECK(earliest.settings.against == assess::Against::own);
}

TEST_CASE("a take of version 1 that says the impossible is refused by what it says") {
    CHECK(has(refusal(text_with("[9,12]", "[12,9]")), "bars: a list, expected the first bar"));
    CHECK(has(refusal(text_with("[9,12]", "[0,12]")), "bars.1: 0, expected a whole number"));
    CHECK(has(refusal(text_with("\"times_through\":3", "\"times_through\":0")),
              "times_through: 0, expected"));
    CHECK(has(refusal(text_with("\"times_through\":3", "\"times_through\":1000000")),
              "times_through: 1000000, expected"));
    CHECK(has(refusal(text_with("[4,5,9]", "[9,4]")), "silent_bars.2: 4, expected a bar behind"));
    CHECK(has(refusal(text_with("[4,5,9]", "[-1]")), "silent_bars.1: -1"));
    CHECK(has(refusal(text_with("132.0", "1e9")), "tempo_bpm: 1"));
    CHECK(has(refusal(text_with("\"62%\"", "\"fast\"")), "swing: \"fast\""));
    CHECK(has(refusal(text_with("bass +8", "oboe +8")), "placement_ms"));
}

TEST_CASE("an old take that was cut short still says how often it was meant to be played") {
    const auto info = practice::read_info(text_with("times_through", "times_meant"));
    REQUIRE(info.has_value());
    CHECK(!info->ended);
    CHECK(info->asked.way.times_through() == 3);
}
