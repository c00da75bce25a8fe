#include "support/catch.hpp"
#include "support/lines.hpp"
#include "support/plucked.hpp"
#include "support/wire.hpp"

#include <compline/practice/round_trip.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

using namespace compline;
using practice::ClickTrain;
using practice::ClickTrainSettings;
using practice::RoundTrip;
using practice::WireFault;
using tests::Wire;
using time::Frames;
using time::SampleRate;

using tests::holds;

namespace {

const SampleRate rate(48000);

ClickTrainSettings few_clicks() {
    ClickTrainSettings settings;
    settings.clicks = 6;
    settings.first = time::Seconds(0.1);
    settings.least_apart = time::Seconds(0.51);
    settings.most_apart = time::Seconds(0.56);
    return settings;
}

const ClickTrain& train() {
    static const ClickTrain made(rate, few_clicks());
    return made;
}

RoundTrip measured(const Wire& wire) {
    return practice::measure_round_trip(train(), wire.recorded(train()));
}

std::string refused(const Wire& wire, WireFault fault) {
    return tests::refused_words(measured(wire), fault);
}

}  // namespace

TEST_CASE("a cable's round trip is found to a tenth of a frame, whole frames or not") {
    for (const double delay : {0.0, 96.0, 413.25, 1536.5, 23500.0}) {
        Wire wire;
        wire.delay = delay;
        const auto found = measured(wire);
        CAPTURE(delay, found.frames);
        REQUIRE(found.is_known());
        CHECK(std::fabs(found.frames - delay) < 0.1);
        CHECK(found.farthest_frames < 0.1);
        CHECK(found.heard == 6);
        CHECK(found.delay().count() == Approx(found.frames / 48000));
    }
}

TEST_CASE("a cable's round trip is found at other rates") {
    for (const int hz : {8000, 44100, 96000}) {
        auto settings = few_clicks();
        settings.clicks = 4;
        const ClickTrain other(SampleRate(hz), settings);
        Wire wire;
        wire.delay = 200.5;
        const auto found = practice::measure_round_trip(other, wire.recorded(other));
        CAPTURE(hz, found.frames);
        REQUIRE(found.is_known());
        CHECK(std::fabs(found.frames - 200.5) < 0.1);
    }
}

TEST_CASE("hum, hiss and plugs the wrong way round do not move a round trip") {
    for (const double hum_hz : {50.0, 60.0}) {
        Wire wire;
        wire.delay = 700.75;
        wire.gain = -0.5;
        wire.hum_hz = hum_hz;
        wire.hum_db = -40;
        wire.hiss_db = -60;
        const auto found = measured(wire);
        CAPTURE(found.frames, found.above_noise_db);
        REQUIRE(found.is_known());
        CHECK(std::fabs(found.frames - 700.75) < 0.1);
        CHECK(found.level_db > -45);
        CHECK(found.level_db < -33);
    }
}

TEST_CASE("a guitar that is played meanwhile is not taken for the clicks") {
    Wire wire;
    wire.delay = 500;
    wire.gain = 0;
    std::vector<tests::Pluck> plucks;
    for (int i = 0; i < 14; ++i) {
        plucks.push_back(
            {time::Seconds(0.05 + 0.3 * i), 1 + i % 6, harmony::MidiNote(45 + i), -12});
    }
    wire.beside = tests::plucked(plucks, rate, time::Seconds(4.7), 3);
    CHECK(measured(wire).fault.has_value());
    wire.gain = 1;
    const auto found = measured(wire);
    CAPTURE(found.frames, found.farthest_frames);
    REQUIRE(found.is_known());
    CHECK(std::fabs(found.frames - 500) < 0.5);
}

TEST_CASE("what is wrong with a wire is said in words, with what to do") {
    Wire none;
    none.gain = 0;
    CHECK(holds(refused(none, WireFault::nothing_heard), "None of 6 clicks came back"));
    none.hiss_db = -50;
    none.hum_hz = 50;
    CHECK(holds(refused(none, WireFault::nothing_heard), "cable"));

    Wire soft;
    soft.gain = 0.003;
    soft.hiss_db = -80;
    CHECK(holds(refused(soft, WireFault::too_soft), "too soft: -"));

    Wire loud;
    loud.gain = 60;
    CHECK(holds(refused(loud, WireFault::clipped), "overloaded"));

    Wire late;
    late.delay = 0.7 * 48000;
    CHECK(holds(refused(late, WireFault::too_late), "more than 500 ms late"));

    Wire echo;
    echo.delay = 400;
    echo.echo_after = 960;
    echo.echo_gain = 0.5;
    CHECK(holds(refused(echo, WireFault::echoes), "again 20.0 ms later, 6 dB softer"));
}

TEST_CASE("clicks that come back unevenly are refused, and how far apart they are is said") {
    Wire unsteady;
    unsteady.delay = 400;
    unsteady.lost_after_click = 3;
    unsteady.lost_frames = 256;
    CHECK(holds(refused(unsteady, WireFault::unsteady), "by 256.0 frames (5.33 ms)"));
    unsteady.lost_frames = 2;
    CHECK(measured(unsteady).is_known());
    unsteady.lost_frames = 3;
    CHECK(holds(refused(unsteady, WireFault::unsteady), "by 3.0 frames"));
}

TEST_CASE("an echo that is softer by more than 12 dB is none") {
    Wire wire;
    wire.delay = 400;
    wire.echo_after = -200;
    wire.echo_gain = 0.3;
    CHECK(measured(wire).fault == WireFault::echoes);
    wire.echo_gain = 0.2;
    CHECK(measured(wire).is_known());
}

TEST_CASE("what is recorded may break off, and hold what is no number") {
    auto recorded = Wire{}.recorded(train());
    const auto second = static_cast<std::size_t>(train().clicks()[1].count()) + 400;
    recorded[second] = std::nanf("");
    recorded.resize(recorded.size() - 4800);
    const auto found = practice::measure_round_trip(train(), recorded);
    CHECK(found.is_known());
    CHECK(found.heard == 5);
    recorded.resize(100);
    CHECK(practice::measure_round_trip(train(), recorded).fault == WireFault::nothing_heard);
}

TEST_CASE("a train of clicks sounds the same in blocks of any size, unevenly apart and soft") {
    const ClickTrain whole(rate, {});
    const auto samples = whole.whole();
    for (const std::size_t block : {1U, 64U, 333U}) {
        std::vector<float> again(samples.size(), 1.0F);
        for (std::size_t at = 0; at < again.size(); at += block) {
            const auto n = std::min(block, again.size() - at);
            whole.write(Frames(static_cast<std::int64_t>(at)), {again.data() + at, n});
        }
        CHECK(again == samples);
    }
    const float peak = *std::max_element(samples.begin(), samples.end());
    CHECK(20 * std::log10(peak) < -29.9);
    CHECK(20 * std::log10(peak) > -31.0);
    std::vector<std::int64_t> apart;
    for (std::size_t i = 1; i < whole.clicks().size(); ++i) {
        apart.push_back((whole.clicks()[i] - whole.clicks()[i - 1]).count());
    }
    std::sort(apart.begin(), apart.end());
    CHECK(apart.front() >= 28800);
    CHECK(apart.back() <= 38401);
    CHECK(apart.back() - apart.front() > 2400);
    CHECK(ClickTrain(rate, {}).clicks() == whole.clicks());
    ClickTrainSettings other;
    other.seed = 2;
    CHECK(ClickTrain(rate, other).clicks() != whole.clicks());
}

TEST_CASE("clicks that could not be heard apart, or would be loud, are refused") {
    const auto refuses = [](auto change) {
        ClickTrainSettings settings;
        change(settings);
        CHECK_THROWS_AS(ClickTrain(rate, settings), std::invalid_argument);
    };
    refuses([](auto& s) { s.clicks = 2; });
    refuses([](auto& s) { s.level_db = 0; });
    refuses([](auto& s) { s.least_apart = time::Seconds(0.4); });
    refuses([](auto& s) { s.most_apart = time::Seconds(0.5); });
}

TEST_CASE("a round trip is said with how steady it is, and a caution comes before the wire") {
    Wire wire;
    wire.delay = 412;
    const auto words = practice::in_words(measured(wire));
    CHECK(words ==
          "Round trip: 412.0 frames at 48000 a second, which is 8.58 ms.\n"
          "6 of 6 clicks came back, none more than 0.0 frames from that.\n");
    CHECK(holds(practice::before_the_wire(), "headphones off"));
    CHECK(tests::widest_line(practice::before_the_wire()) <= 80);
}
