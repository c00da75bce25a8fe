// Whole evenings without a device, on which the player decides while the band plays.

#include "live/offline_rig.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/random_decisions.hpp"

#include <compline/band/place.hpp>
#include <compline/practice/progress.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <random>
#include <variant>

using namespace compline;
using tests::OfflineEvening;
using time::Frames;
using time::Instant;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};

roadmap::RoadMap road(int times, double bpm) {
    const auto form = tests::make_form(time::Meter(4), time::Bpm(132),
                                       {"Dm7", "G7", "Cmaj7", "Em7 A7", "Dm7", "G7", "C6", "A7b9"});
    auto asked = roadmap::Asked::of({1, 8}, times);
    asked.tempo = time::Bpm(bpm);
    asked.melody = true;
    return {form, asked};
}

/// What a take of it would be rendered to; the first frame is that of the first click.
sound::Stereo rendered(const roadmap::RoadMap& map, const band::Players& players) {
    const auto zero = time::nearest_frame(map.lead(), rate);
    const auto cues = band::place(band::arrange(map, players), map, rate, zero, {}, Frames(0));
    const auto bank = tests::bank_at(rate, players);
    return sound::render(cues, *bank, {Frames(0), sound::end_of(cues, *bank, Frames(0)), 512});
}

/// A player who decides something every now and then, and what comes of it.
class Player {
  public:
    Player(const OfflineEvening::Settings& settings, unsigned seed)
        : chance_(seed),
          asked_(road(one_of(1, 2), one_of(120, 300))),
          map_(asked_),
          latency_(settings.output.latency),
          evening_(settings, map_, players()) {}

    static band::Players players() {
        band::Players players;
        players.fills = true;
        players.crash = true;
        for (int note = 0; note < 21; ++note) {  // across bar lines too
            players.melody.push_back(
                {time::Beats(note * 1.5), time::Beats(1.25), harmony::MidiNote(60 + note % 12)});
        }
        return players;
    }

    /// At any beat of a bar, sometimes at several, sometimes twice at the same.
    void play() {
        zero_ = evening_.start();
        play_on();
    }
    /// A few decisions, and then from the beginning, as it was asked to play, without any.
    void start_over() {
        (void)evening_.start();
        go_on_until(Seconds(0.1));
        decide({2, roadmap::NewTempo{time::Bpm(90)}});
        decide({4, roadmap::Stopped{}});
        go_on_until(Seconds(one_of(0, 4)));
        map_ = asked_;
        evening_.rig().start(map_);
        const auto now = evening_.now();
        zero_ = now + (-evening_.rig().session().now(now));
        play_to_the_end();
    }

    /// Sample by sample what is rendered, from the first click to the last tail.
    void check() {
        const auto expected = rendered(map_, players());
        const auto length =
            time::time_of(Frames(static_cast<std::int64_t>(expected.left.size())), rate);
        go_on_until(length - map_.lead() + Seconds(0.2));
        const auto machine = evening_.rig().machine();
        CHECK(machine.late_strokes == 0);
        CHECK(machine.xruns == 0);
        CHECK(evening_.trouble().empty());
        evening_.end();
        const auto& output = evening_.output();
        const auto first = time::nearest_frame(zero_ - output.began() - latency_, rate) -
                           time::nearest_frame(map_.lead(), rate);
        CHECK(same(output.heard().left, first.count(), expected.left));
        CHECK(same(output.heard().right, first.count(), expected.right));
    }
    [[nodiscard]] std::size_t decided() const { return map_.decided().size(); }

  private:
    void play_on() {
        auto at = evening_.rig().now();
        while (is_on() && decided() < 40) {
            at = at + map_.tempo_at(map_.position_at(at)).beat() * one_of(0, 7);
            go_on_until(at);
            decide();
        }
        if (is_paused()) decide();
        play_to_the_end();
    }
    void play_to_the_end() {
        while (!practice::is_finished(evening_.rig().map(), evening_.rig().now()))
            (void)evening_.turn();
        CHECK(practice::times_over(evening_.rig().map(), evening_.rig().now()) ==
              map_.times_through());
    }
    int one_of(int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(chance_);
    }
    [[nodiscard]] bool is_paused() const {
        const auto& decided = map_.decided();
        return !decided.empty() && std::holds_alternative<roadmap::Paused>(decided.back().what);
    }
    [[nodiscard]] bool is_on() {
        return is_paused() || !practice::is_finished(evening_.rig().map(), evening_.rig().now());
    }
    void go_on_until(Seconds at) {
        while (evening_.rig().now() < at) (void)evening_.turn();
    }
    void decide() {
        const auto decision = tests::random_decision(map_, evening_.rig().now(), chance_);
        if (decision) decide(*decision);
    }
    void decide(const roadmap::Decision& decision) {
        map_ = map_.with(decision);
        evening_.rig().follow(map_, decision.from_bar);
    }
    static bool same(const std::vector<float>& heard, std::int64_t first,
                     const std::vector<float>& expected) {
        if (first < 0 || heard.size() < static_cast<std::size_t>(first) + expected.size()) {
            return false;
        }
        return std::equal(expected.begin(), expected.end(), heard.begin() + first);
    }

    std::mt19937 chance_;
    roadmap::RoadMap asked_;
    roadmap::RoadMap map_;
    Seconds latency_;
    OfflineEvening evening_;
    Instant zero_;
};

}  // namespace

TEST_CASE("whatever is decided on an evening, at whatever beat, is heard as it is rendered later",
          "[threads]") {
    std::size_t decided = 0;
    for (unsigned seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        OfflineEvening::Settings settings;
        settings.output.period = seed % 3 == 0 ? 1024 : seed % 3 == 1 ? 256 : 37;
        Player player(settings, seed);
        player.play();
        player.check();
        decided += player.decided();
    }
    CHECK(decided > 80);
}

TEST_CASE("a band that starts over has forgotten what was decided", "[threads]") {
    for (unsigned seed = 1; seed <= 4; ++seed) {
        CAPTURE(seed);
        Player player({}, seed);
        player.start_over();
        player.check();
    }
}
