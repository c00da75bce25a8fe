// The signs of a MIDI file across meters, keys and tempi, read by mido.

#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/roadmap/road_map.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <iterator>
#include <map>
#include <sstream>
#include <string>

using namespace compline;
using namespace compline::tests;

TEST_CASE("mido reads meters, keys and tempi of a lead sheet's form where the road map has them",
          "[band][app]") {
    if (!outside_python_module("mido")) return;
    const TemporaryFolder folder;
    const auto file = folder.file("form.mid").string();
    const auto form = chart::unroll(
        chart::load_chart(COMPLINE_SOURCE_DIR "/charts/the-miller-winds-his-clock.yaml"));
    roadmap::Asked asked;
    asked.way = *chart::own_road_map(form);
    const roadmap::RoadMap map(form, asked);
    const std::string chart = COMPLINE_SOURCE_DIR "/charts/the-miller-winds-his-clock.yaml";
    REQUIRE(run(shell_quote(COMPLINE_PROGRAM) + " render " + shell_quote(chart) + " " +
                shell_quote(file))
                .status == 0);
    const auto script = std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests/midi/list_with_mido.py";
    const auto [status, output] =
        run("/usr/bin/python3 " + shell_quote(script.string()) + " " + shell_quote(file));
    REQUIRE(status == 0);
    // Signs of the first track, by where they stand in the tune; the file begins with the count-in.
    std::map<std::int64_t, std::string> meters;
    std::map<std::int64_t, std::string> keys;
    std::map<std::int64_t, double> tempi;
    constexpr int per_tick = 15360 / 960;
    const auto count_in = map.count_in().count();
    std::istringstream lines(output);
    for (std::string line; std::getline(lines, line);) {
        std::istringstream fields(line);
        int track = 0;
        std::int64_t tick = 0;
        std::string sign;
        std::string value;
        if (!(fields >> track >> tick >> sign >> value) || track != 1) continue;
        const auto at = std::max<std::int64_t>(0, tick / per_tick - count_in);
        if (sign == "time_signature") meters[at] = value;
        if (sign == "tempo") tempi[at] = 60e6 / std::stod(value);
        const auto key = line.find("key='");
        if (key != std::string::npos)
            keys[at] = line.substr(key + 5, line.find('\'', key + 5) - key - 5);
    }
    const auto holding = [](const auto& signs, time::Ticks at) {
        return std::prev(signs.upper_bound(at.count()))->second;
    };
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        const auto bar = map.bar(number);
        INFO("bar " << number);
        const auto meter = bar.meter().written();
        CHECK(holding(meters, bar.start) == fmt::format("{}/{}", meter.above, meter.below));
        CHECK(holding(keys, bar.start) == bar.written->key.name(harmony::Accidentals::letters));
        CHECK(holding(tempi, bar.start) == Approx(bar.tempo.count()).epsilon(1e-5));
    }
}
