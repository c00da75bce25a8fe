// The way of sound from an input to the judge: heard by the audio thread, read by the main loop.

#include "live/offline_rig.hpp"
#include "support/catch.hpp"

#include <compline/chart/chart.hpp>
#include <compline/live/sound_probe.hpp>
#include <compline/roadmap/click.hpp>

#include <cmath>
#include <thread>
#include <vector>

using namespace compline;
using tests::OfflineEvening;
using time::Seconds;

namespace {

constexpr int period = 256;

/// Two bars of sticks on every beat, and nobody else.
roadmap::RoadMap sticks() {
    auto form = chart::unroll(chart::read_chart(
        "title: Sticks\nkey: C\ntempo: 150\nfeel: straight\nsections:\n  A: N.C. | N.C.\n",
        "sticks"));
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.click = roadmap::read_click("1 2 3 4", time::Meter(4));
    asked.manner.bass = chart::Bass::off;
    asked.count_in_bars = 1;
    return {std::move(form), asked};
}

}  // namespace

TEST_CASE("what comes back by a wire is heard as picks, each on its beat", "[threads]") {
    OfflineEvening::Settings settings;
    settings.guitar.reset();
    settings.output.wire = 700;
    settings.output.period = period;
    settings.round_trip = Seconds(700.0 / 48000);
    const auto map = sticks();
    OfflineEvening evening(settings, map);
    evening.start();
    evening.go_on();
    CHECK(evening.trouble().empty());
    const auto& messages = evening.rig().session().played().messages;
    std::vector<double> off_beat_ms;
    for (const auto& [at, message] : messages) {
        if (!message.starts_note() || at < Seconds(-0.1)) continue;
        const double beats = at.count() * 150 / 60;
        off_beat_ms.push_back((beats - std::round(beats)) * 60000 / 150);
    }
    CHECK(off_beat_ms.size() >= 7);
    for (const double off : off_beat_ms) CHECK(std::fabs(off) < 1);
    CHECK(evening.rig().guitar().name() == "sound:Offline:wire");
}

TEST_CASE("a probe plays its sound once, and keeps what came in frame by frame", "[threads]") {
    std::vector<float> sound(1000);
    for (std::size_t i = 0; i < sound.size(); ++i) sound[i] = static_cast<float>(i + 1);
    live::SoundProbe probe(sound, 1500);
    std::thread device([&probe] {
        std::vector<float> left(64);
        std::vector<float> right(64);
        std::vector<float> back(64);  // what the block before played: a wire of a period
        for (int block = 0; block < 30; ++block) {
            probe.run({left.data(), right.data(), 64, back.data(), 64, block == 5});
            back = left;
            CHECK(left == right);
        }
    });
    while (!probe.is_done()) std::this_thread::yield();
    device.join();
    const auto heard = probe.heard();
    REQUIRE(heard.size() == 1500);
    for (std::size_t i = 0; i < heard.size(); ++i) {
        REQUIRE(heard[i] == (i < sound.size() ? sound[i] : 0.0F));
    }
    CHECK(probe.interruptions() == 1);
}
