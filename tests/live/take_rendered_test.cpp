// What was heard of an evening, and what its take makes of it again, sample by sample: the take
// goes through its file, and the chart that it carries is the only one that is read.

#include "../../src/app/evening.hpp"
#include "../../src/app/recorder.hpp"
#include "live/offline_rig.hpp"
#include "practice/climber.hpp"
#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/band/place.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/practice/evening.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <random>
#include <utility>
#include <vector>

using namespace compline;
using tests::OfflineEvening;
using tests::OfflineOutput;
using time::Bpm;
using time::Frames;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};

constexpr const char* chart_text =
    "title: Eight Steps\n"
    "key: F\n"
    "tempo: 240\n"
    "sections:\n"
    "  A: F7 | Bb7 | Cm7 F7 | D7 | Gm7 | C7 | F7 D7 | Gm7 C7\n";

/// A melody over the first time through: a note on every second beat.
std::vector<band::MelodyNote> a_melody() {
    std::vector<band::MelodyNote> melody;
    for (int n = 0; n < 16; ++n) {
        melody.push_back({time::Beats(2.0 * n + 0.25), time::Beats(1.1),
                          harmony::MidiNote(65 + n * 5 % 12), 70 + n});
    }
    return melody;
}

roadmap::Asked asked(std::optional<int> times) {
    auto asked = roadmap::Asked::of({1, 8}, times);
    asked.tempo = Bpm(240);
    asked.count_in_bars = 1;
    asked.silence = roadmap::Silence{5, 2};
    asked.melody = true;
    return asked;
}

/// Faster from the second time through on, slower in the midst of the third, and alone for two
/// bars.
std::vector<roadmap::Decision> some_decisions() {
    return {{9, roadmap::NewTempo{Bpm(252)}},
            {12, roadmap::LaysOut{roadmap::everybody, true}},
            {14, roadmap::LaysOut{roadmap::everybody, false}},
            {19, roadmap::NewTempo{Bpm(199.5)}}};
}

/// Everything that can be asked of a band.
app::AskedEvening an_evening(std::optional<int> times, const std::filesystem::path& take,
                             std::vector<roadmap::Decision> decided) {
    app::AskedEvening evening({chart::unroll(chart::read_chart(chart_text, "eight-steps.yaml")),
                               asked(times), std::move(decided)});
    evening.chart_text = chart_text;
    evening.players.melody = a_melody();
    evening.players.fills = true;
    evening.players.crash = true;
    evening.players.seed = 5;
    band::read_placement("bass=+8,ride=-3.3", evening.stage);
    band::read_mix("hats=-7.5", evening.stage);
    band::read_pan("melody=-0.3", evening.stage);
    evening.take = take;
    return evening;
}

/// What the rig played, and where bar 1 is in it.
struct Heard {
    const sound::Stereo& sound;
    std::int64_t zero;
};

Heard heard_from(const OfflineOutput& output, time::Instant zero) {
    const Seconds latency = OfflineOutput::Settings{}.latency;
    return {output.heard(), nearest_frame(zero - output.began() - latency, rate).count()};
}

/// The take's own band, from its file.
sound::Stereo played_again(const std::filesystem::path& path) {
    const auto take = practice::read_take(midi::read_smf(files::load_bytes(path)).file);
    const auto& info = take.info.value();
    const auto map =
        practice::map_of(info, chart::unroll(chart::read_chart(info.chart_text, "the take")));
    const auto zero = nearest_frame(map.lead(), rate);
    const auto cues =
        band::place(band::arrange(map, info.players), map, rate, zero, info.stage, Frames(0));
    const auto bank = tests::bank_at(rate, info.players);
    return sound::render(cues, *bank, {Frames(0), sound::end_of(cues, *bank, zero), 512});
}

/// Samples that differ from the count-in until `until` in the tune.
std::size_t wrong_samples(const Heard& heard, const sound::Stereo& again, Seconds lead,
                          Seconds until) {
    const auto ahead = nearest_frame(lead, rate).count();
    const auto length = static_cast<std::size_t>(ahead + nearest_frame(until, rate).count());
    const auto begin = static_cast<std::size_t>(heard.zero - ahead);
    REQUIRE(heard.zero >= ahead);
    REQUIRE(again.left.size() >= length);
    REQUIRE(heard.sound.left.size() >= begin + length);
    std::size_t wrong = 0;
    for (std::size_t i = 0; i < length; ++i) {
        wrong += heard.sound.left[begin + i] != again.left[i];
        wrong += heard.sound.right[begin + i] != again.right[i];
    }
    return wrong;
}

/// An evening on an offline rig, as the program's own loop goes through it; and its take.
class Night {
  public:
    /// comping: who plays along and is listened to; none: nobody.
    explicit Night(const app::AskedEvening& asked, std::optional<tests::Comping> comping = {})
        : comping_(std::move(comping)),
          evening_(asked.map, app::opening_of(asked), {},
                   comping_ ? practice::JudgedMeanwhile::times_through
                            : practice::JudgedMeanwhile::nothing),
          recorder_(asked.take, opening()),
          offline_({}, asked.map, asked.players, asked.stage),
          zero_(offline_.start()) {}

    void go_on_until(Seconds at) {
        while (!evening_.state().over && offline_.rig().now() < at) turn({});
    }
    void ask(const std::vector<practice::Command>& commands) { turn(commands); }
    [[nodiscard]] const practice::State& state() const { return evening_.state(); }

    /// Samples of the take's own band that are others than what was heard, until it ended.
    std::size_t wrong() {
        while (!state().over) turn({});
        const auto end = state().now;
        offline_.rig().stop();
        CHECK(offline_.rig().machine().late_strokes == 0);
        (void)recorder_.finish(evening_.take());
        offline_.end();
        const auto heard = heard_from(offline_.output(), zero_);
        // What sounds is damped where it ends.
        const auto until = std::min(end, state().map.tempi().time_of(state().map.end()));
        return wrong_samples(heard, played_again(recorder_.path()), state().map.lead(),
                             until - Seconds(0.05));
    }

  private:
    [[nodiscard]] practice::Opening opening() const {
        return {evening_.opening(), evening_.state().map};
    }
    void turn(const std::vector<practice::Command>& commands) {
        (void)offline_.turn();
        const auto heard = offline_.rig().now();
        const auto news = comping_ ? comping_->until(heard, state().map) : practice::Played{};
        const auto orders = evening_.advance(heard, news, commands);
        recorder_.add(news, orders.decided, state().now);
        if (orders.finished) {
            offline_.rig().stop();
            (void)recorder_.finish(*orders.finished);
            recorder_.start_over(opening());
            offline_.rig().start(state().map);
            const auto now = offline_.now();
            zero_ = now + (-offline_.rig().session().now(now));
        } else if (orders.follow_from) {
            offline_.rig().follow(state().map, *orders.follow_from);
        }
    }

    std::optional<tests::Comping> comping_;
    practice::Evening evening_;
    app::Recorder recorder_;
    OfflineEvening offline_;
    time::Instant zero_;
};

}  // namespace

TEST_CASE("what a take renders is what was heard, every sample of it", "[threads]") {
    const tests::TemporaryFolder folder;
    Night night(an_evening(3, folder.file("take.mid"), some_decisions()));
    CHECK(night.wrong() == 0);
    CHECK(night.state().map.tempi().time_of(night.state().map.end()) > Seconds(24.0));
}

TEST_CASE("what a take that was stopped renders is what was heard until then", "[threads]") {
    const tests::TemporaryFolder folder;
    Night night(an_evening(std::nullopt, folder.file("take.mid"), some_decisions()));
    night.go_on_until(Seconds(12.3));  // in the second time through
    night.ask({practice::Command::stop});
    CHECK(night.wrong() == 0);
}

TEST_CASE("what a ladder played, its sticks and the section at its end, its take plays again",
          "[threads]") {
    const tests::TemporaryFolder folder;
    auto evening = an_evening(std::nullopt, folder.file("take.mid"), {});
    auto on_a_ladder = asked(std::nullopt);
    on_a_ladder.way = chart::Way::of({1, 4}, std::nullopt);
    on_a_ladder.ladder = roadmap::AskedLadder{Bpm(240), Bpm(250)};
    evening.map = {evening.map.form(), on_a_ladder};
    // In the third time through too little is right.
    Night night(evening, tests::Comping([](int time_through) {
                    return time_through == 3 ? tests::Playing::badly : tests::Playing::well;
                }));
    CHECK(night.wrong() == 0);
    const auto& map = night.state().map;
    CHECK(map.bar(8).tempo == Bpm(240));
    CHECK(map.bar(9).waits);
    CHECK(map.bar(10).tempo == Bpm(250));
    CHECK(map.way().stretches.back().passage == chart::Passage{1, 8});
    CHECK(map.times_through() == 6);
}

TEST_CASE("whatever a player asks for, at whatever beat, its take plays again as it was heard",
          "[threads]") {
    using practice::Command;
    const std::vector<Command> all{Command::pause,     Command::go_on,     Command::slower,
                                   Command::faster,    Command::loop_here, Command::leave_loop,
                                   Command::drums_off, Command::drums_on,  Command::bass_off,
                                   Command::bass_on,   Command::faster,    Command::go_on};
    for (unsigned seed = 1; seed <= 8; ++seed) {
        INFO("seed " << seed);
        std::mt19937 chance(seed);
        const auto one_of = [&](int least, int most) {
            return std::uniform_int_distribution<int>(least, most)(chance);
        };
        const tests::TemporaryFolder folder;
        Night night(an_evening(std::nullopt, folder.file("take.mid"), {}));
        for (int i = 0; i < 25; ++i) {
            const auto beat = night.state().tempo.beat();
            night.go_on_until(night.state().now + beat * one_of(0, 5));
            night.ask({all[static_cast<std::size_t>(one_of(0, static_cast<int>(all.size()) - 1))]});
            if (i == 12 && seed % 2 == 0) night.ask({Command::from_the_top});
            if (i == 15 && seed % 4 == 0) night.ask({Command::start_over});
        }
        night.ask({Command::go_on});
        night.go_on_until(night.state().now + Seconds(3));
        night.ask({Command::stop});
        CHECK(night.wrong() == 0);
    }
}
