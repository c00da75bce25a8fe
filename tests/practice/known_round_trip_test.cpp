// The round trip of an interface: as it is written down, and where it holds.

#include "support/catch.hpp"
#include "support/refusal.hpp"

#include <compline/practice/delays_now.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using namespace compline::practice;
using time::from_milliseconds;

namespace {

const SoundPath jack{48000, 256, "JACK:system"};

/// Through it with a latency of 5 ms that the system told.
Machine played_on(const SoundPath& path) {
    Machine machine;
    machine.output = path.output;
    machine.rate_hz = path.rate_hz;
    machine.period_frames = path.period_frames;
    machine.latency_ms = 5;
    return machine;
}

DelaysNow now(const std::string& round_trip) {
    return {{from_milliseconds(9), 1.5}, read_round_trip(round_trip)};
}

}  // namespace

TEST_CASE("a round trip comes back from its words, with what it was measured on or without") {
    CHECK(read_round_trip("11.354") == KnownRoundTrip{from_milliseconds(11.354), {}});
    CHECK(read_round_trip("11.354 at 48000/256 by JACK:system") ==
          KnownRoundTrip{from_milliseconds(11.354), jack});
    for (const std::string words :
         {"0", "11.354", "1000", "0.021 at 44100/64 by ALSA:USB Audio (hw:1,0)",
          "23.5 at 96000/1024 by PulseAudio:by the window at 3/4 by night"}) {
        CHECK(in_words(read_round_trip(words)) == words);
    }
    CHECK(read_round_trip("5 at 1/2 by a by b at c").path->output == "a by b at c");
}

TEST_CASE("a round trip that cannot be, or does not say what it was measured on, is refused") {
    const std::vector<std::pair<std::string, std::string>> refused = {
        {"", "\"\" is no round trip: write milliseconds from 0 to 1000"},
        {"-1", "\"-1\" is no round trip"},
        {"1000.5", "\"1000.5\" is no round trip"},
        {"eleven", "\"eleven\" is no round trip"},
        {"11 ms", "\"11 ms\" is no round trip"},
        {"nan", "\"nan\" is no round trip"},
        {" at 48000/256 by JACK:system", "\"\" is no round trip"},
        {"11 at ", "\"\" does not say what it was measured on: write milliseconds, or 11.354 at"},
        {"11 at 48000 by JACK:system", "\"48000 by JACK:system\" does not say what"},
        {"11 at 48000/256", "\"48000/256\" does not say what it was measured on"},
        {"11 at JACK by 48000/256", "\"JACK by 48000/256\" does not say"},
        {"11 at 48000/256 by ", "\"48000/256 by \" is no rate, period and output"},
        {"11 at 0/256 by JACK:system", "\"0/256 by JACK:system\" is no rate"},
        {"11 at 48k/256 by JACK:system", "\"48k/256 by JACK:system\" is no rate"},
        {"11 at 48000/-1 by JACK:system", "\"48000/-1 by JACK:system\" is no rate"},
    };
    for (const auto& [words, complaint] : refused) {
        CAPTURE(words);
        const auto said = tests::refusal([&, &words = words] { (void)read_round_trip(words); });
        CAPTURE(said);
        CHECK(said.rfind(complaint, 0) == 0);
    }
}

TEST_CASE("a round trip holds where it was measured, or everywhere when it does not say where") {
    const auto measured = read_round_trip("11 at 48000/256 by JACK:system");
    CHECK(measured.holds_on(jack));
    CHECK_FALSE(measured.holds_on({44100, 256, "JACK:system"}));
    CHECK_FALSE(measured.holds_on({48000, 128, "JACK:system"}));
    CHECK_FALSE(measured.holds_on({48000, 256, "ALSA:system"}));
    CHECK(read_round_trip("11").holds_on({44100, 64, "ALSA:USB"}));
}

TEST_CASE("a take is moved from the delay it was played with to the round trip known now") {
    const auto on_jack = now("11 at 48000/256 by JACK:system");
    const auto by_latency = take_delays(on_jack, played_on(jack));
    CHECK(by_latency.round_trip == RoundTripNow::taken);
    CHECK(by_latency.moved.milliseconds() == Approx(-6));
    auto machine = played_on(jack);
    machine.round_trip_ms = 12.5;
    CHECK(take_delays(on_jack, machine).moved.milliseconds() == Approx(1.5));
    CHECK(take_delays(now("11"), played_on({44100, 64, "ALSA:USB"})).moved.milliseconds() ==
          Approx(-6));
    CHECK(take_delays(on_jack, played_on(jack)).delay == on_jack.delay);
}

TEST_CASE("a take stays where it is when nobody knows what its round trip was, or is") {
    const auto elsewhere = take_delays(now("11 at 48000/128 by JACK:system"), played_on(jack));
    CHECK(elsewhere.round_trip == RoundTripNow::measured_elsewhere);
    CHECK(elsewhere.moved == time::Seconds(0));
    const auto from_elsewhere = take_delays(now("11"), std::nullopt);
    CHECK(from_elsewhere.round_trip == RoundTripNow::not_said_by_take);
    CHECK(from_elsewhere.moved == time::Seconds(0));
    const auto unknown = take_delays({{from_milliseconds(9), 1.5}, std::nullopt}, played_on(jack));
    CHECK(unknown.round_trip == RoundTripNow::not_known);
    CHECK(unknown.moved == time::Seconds(0));
}
