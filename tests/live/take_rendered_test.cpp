// What was heard of an evening, and what its take makes of it again, sample by sample: the take
// goes through its file, and the chart that it carries is the only one that is read.

#include "../../src/app/recorder.hpp"
#include "live/offline_rig.hpp"
#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/band/place.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>

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

/// Everything that can be asked of a band; faster from the second time through on, slower in the
/// midst of the third, and alone for two bars.
app::Evening an_evening(std::optional<int> times, const std::filesystem::path& take) {
    app::Evening evening({chart::unroll(chart::read_chart(chart_text, "eight-steps.yaml")),
                          asked(times),
                          {{9, roadmap::NewTempo{Bpm(252)}},
                           {12, roadmap::LeftAlone{true}},
                           {14, roadmap::LeftAlone{false}},
                           {19, roadmap::NewTempo{Bpm(199.5)}}}});
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

}  // namespace

TEST_CASE("what a take renders is what was heard, every sample of it", "[threads]") {
    const tests::TemporaryFolder folder;
    const auto evening = an_evening(3, folder.file("take.mid"));
    app::Recorder recorder(evening);
    OfflineEvening offline({}, evening.map, evening.players, evening.stage);
    const auto zero = offline.start();
    offline.go_on();
    CHECK(offline.trouble().empty());
    const auto& session = offline.rig().session();
    (void)recorder.finish(session.played(), session.times_begun(offline.rig().now()),
                          offline.rig().machine(), offline.rig().now());
    offline.end();

    const auto again = played_again(folder.file("take.mid"));
    const auto heard = heard_from(offline.output(), zero);
    const auto lead = evening.map.lead();
    const auto end = evening.map.tempi().time_of(evening.map.end());
    CHECK(end > Seconds(24.0));  // it has slowed down
    CHECK(wrong_samples(heard, again, lead, end) == 0);
    // Nothing of that is equal because it is silent, or whatever is played.
    CHECK(wrong_samples({heard.sound, heard.zero + 1}, again, lead, end) > 48000);
}

TEST_CASE("what a take that was stopped renders is what was heard until then", "[threads]") {
    const tests::TemporaryFolder folder;
    const auto evening = an_evening(std::nullopt, folder.file("take.mid"));
    app::Recorder recorder(evening);
    OfflineEvening offline({}, evening.map, evening.players, evening.stage);
    const auto zero = offline.start();
    offline.go_on_until(Seconds(12.3));  // in the second time through
    offline.rig().stop();
    const auto stopped = offline.rig().now();
    const auto& session = offline.rig().session();
    CHECK(session.times_begun(stopped) == 2);
    (void)recorder.finish(session.played(), session.times_begun(stopped), offline.rig().machine(),
                          stopped);
    offline.end();

    const auto again = played_again(folder.file("take.mid"));
    const auto heard = heard_from(offline.output(), zero);
    CHECK(wrong_samples(heard, again, evening.map.lead(), Seconds(12.25)) == 0);
}
