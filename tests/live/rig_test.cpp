// Whole evenings without a device: the band's thread, the audio thread, the guitar's and the main
// loop all run as they do when it is played, but for the clock.

#include "live/offline_rig.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/assess/assessment.hpp>
#include <compline/band/place.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/listen/listener.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/practice/progress.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <thread>
#include <utility>

using namespace compline;
using tests::OfflineClock;
using tests::OfflineEvening;
using tests::OfflineGuitar;
using tests::OfflineOutput;
using tests::Sent;
using time::Frames;
using time::Instant;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};
constexpr time::Bpm tempo{240};  // a bar a second
constexpr Seconds half_a_frame{0.5001 / 48000};
/// The clock runs so far ahead at most of the main loop that asks: its own lead, and a turn.
constexpr Seconds leash{0.1};

/// What is played in these tests: four bars, a bar of count-in, so many times through.
struct Tune {
    explicit Tune(std::optional<int> times, band::Players bring = {})
        : map(tests::form_of("Dm7 | G7 | Cmaj7 | A7"), asked(times, bring)),
          players(std::move(bring)),
          count(times.value_or(1)) {}

    [[nodiscard]] static roadmap::Asked asked(std::optional<int> times,
                                              const band::Players& bring) {
        auto asked = roadmap::Asked::of({1, 4}, times);
        asked.melody = !bring.melody.empty();
        asked.guitar = bring.voicings.has_value();
        asked.tempo = tempo;
        asked.swing = roadmap::AskedSwing{1.0};
        asked.count_in_bars = 1;
        return asked;
    }

    /// A strum in every bar, up to 15 ms late.
    [[nodiscard]] std::vector<midi::TimedMessage> strums() const {
        const guitar::Shape grips[] = {tests::shape("x5x56x"), tests::shape("3x34xx"),
                                       tests::shape("x3x45x"), tests::shape("5x56xx")};
        std::vector<simulate::ScriptedStrum> script;
        for (int bar = 0; bar < 4 * count; ++bar) {
            simulate::ScriptedStrum strum;
            strum.at = time::quarter_note * (4 * bar);
            strum.lateness = time::from_milliseconds(bar * 7 % 16);
            strum.shape = grips[bar % 4];
            strum.length = Seconds(0.8);
            script.push_back(strum);
        }
        return simulate::perform(script, map, guitar::Fretboard::standard());
    }

    /// What the band plays, made without any thread; the first frame is that of the first click.
    [[nodiscard]] sound::Stereo rendered() const {
        const auto lead = nearest_frame(tempo.beat() * 4, rate);
        const auto cues = band::place(band::arrange(map, players), map, rate, lead, {}, Frames(0));
        const auto bank = tests::bank_at(rate, players);
        return sound::render(cues, *bank, {Frames(0), sound::end_of(cues, *bank, Frames(0)), 512});
    }

    [[nodiscard]] assess::Assessment judged(const practice::Played& played, Seconds end) const {
        const auto heard = listen::hear(played.messages, {}, end);
        assess::Performance performance;
        performance.notes = heard.notes;
        performance.end = end;
        return assess::assess(map, performance, {});
    }

    roadmap::RoadMap map;
    band::Players players;
    int count;
};

/// How many messages of a take are, one by one, those of a script from its `first` on, each within
/// `off` of its time.
std::size_t equal_from(std::size_t first, const std::vector<midi::TimedMessage>& script,
                       const std::vector<midi::TimedMessage>& taken, std::size_t from,
                       Seconds off) {
    std::size_t count = 0;
    while (first + count < script.size() && from + count < taken.size()) {
        const auto& [at, message] = script[first + count];
        const auto& [taken_at, taken_message] = taken[from + count];
        if (message != taken_message || time::abs(at - taken_at) > off) break;
        ++count;
    }
    return count;
}

bool is_take_of(const std::vector<midi::TimedMessage>& script,
                const std::vector<midi::TimedMessage>& taken, Seconds off = half_a_frame) {
    return taken.size() == script.size() && equal_from(0, script, taken, 0, off) == script.size();
}

bool same_messages(const std::vector<midi::TimedMessage>& a,
                   const std::vector<midi::TimedMessage>& b) {
    return is_take_of(a, b, Seconds(0));
}

/// The frame of the playback at which bar 1 was due to be played.
std::int64_t frame_of(Instant zero, const OfflineOutput& output, Seconds latency) {
    return nearest_frame(zero - output.began() - latency, rate).count();
}

/// How many samples of a side are others than expected, from the count-in on as far as was played.
std::size_t wrong_samples(const std::vector<float>& heard, std::int64_t count_in,
                          const std::vector<float>& expected, std::size_t length) {
    if (count_in < 0) return expected.size();
    std::size_t wrong = 0;
    for (std::size_t i = 0; i < length; ++i) {
        const auto at = static_cast<std::size_t>(count_in) + i;
        if (at >= heard.size() || heard[at] != expected[i]) ++wrong;
    }
    return wrong;
}

/// Sample by sample what it would be in a rendered file, until `until` in the tune.
void check_band(const Tune& tune, const OfflineOutput& output, Instant zero, Seconds until,
                Seconds latency = OfflineOutput::Settings{}.latency) {
    const auto expected = tune.rendered();
    const auto lead = nearest_frame(tempo.beat() * 4, rate).count();
    const auto length = static_cast<std::size_t>(lead + nearest_frame(until, rate).count());
    REQUIRE(expected.left.size() >= length);
    const auto count_in = frame_of(zero, output, latency) - lead;
    CHECK(wrong_samples(output.heard().left, count_in, expected.left, length) == 0);
    CHECK(wrong_samples(output.heard().right, count_in, expected.right, length) == 0);
}

void check_all_well(const practice::Machine& machine) {
    CHECK(machine.late_strokes == 0);
    CHECK(machine.xruns == 0);
    CHECK(machine.dropped_events == 0);
    CHECK(machine.unreadable_bytes == 0);
}

OfflineEvening::Settings with_period(int period) {
    OfflineEvening::Settings settings;
    settings.output.period = period;
    return settings;
}

}  // namespace

TEST_CASE("a band with a comping guitar is heard with it, as it is rendered", "[threads]") {
    const Tune without(1);
    band::Players comping;
    comping.voicings =
        guitar::plan_voicings(without.map.form(), {1, 4}, tempo, guitar::Fretboard::standard(), {})
            .front();
    const Tune tune(1, comping);
    CHECK(band::guitar_sounds_for(tune.players) == sound::Bank::Guitar::with);
    OfflineEvening evening({}, tune.map, tune.players);
    const auto zero = evening.start();
    evening.go_on();
    evening.end();
    check_band(tune, evening.output(), zero, Seconds(4));
    CHECK(tune.rendered().left != without.rendered().left);
}

TEST_CASE("a round trip that was measured takes the place of the latency that the system tells",
          "[threads]") {
    const Tune tune(1);
    OfflineEvening::Settings settings;
    settings.round_trip = time::from_milliseconds(31);
    OfflineEvening evening(settings, tune.map, tune.players);
    const auto zero = evening.start();
    evening.go_on_until(Seconds(2));
    const auto machine = evening.rig().machine();
    CHECK(machine.latency_ms == Approx(12.5));
    CHECK(machine.round_trip_ms.value() == Approx(31));
    evening.end();
    check_band(tune, evening.output(), zero, Seconds(1), *settings.round_trip);
}

TEST_CASE("a rig without the sounds that its band needs is refused, not silent") {
    band::Players melodious;
    melodious.melody = {{time::Beats(0), time::Beats(1)}};
    const Tune tune(1, melodious);
    OfflineEvening::Settings settings;
    settings.bank = tests::bank_at(rate);
    CHECK_THROWS_AS(OfflineEvening(settings, tune.map, tune.players), std::logic_error);
}

TEST_CASE("an evening is played, heard and judged to the frame while all threads run",
          "[threads]") {
    const Tune tune(3);
    const auto script = tune.strums();
    for (const auto timed_by : {OfflineGuitar::TimedBy::frames, OfflineGuitar::TimedBy::moments}) {
        OfflineEvening::Settings settings;
        settings.guitar = timed_by;
        OfflineEvening evening(settings, tune.map, tune.players);
        const auto zero = evening.start(tests::as_bytes(script));
        evening.go_on();
        CHECK(evening.trouble().empty());

        const auto& session = evening.rig().session();
        const Seconds end = evening.rig().now();
        CHECK(practice::is_finished(evening.rig().map(), end));
        CHECK(end < Seconds(12) + practice::afterwards + leash);
        CHECK(practice::times_over(evening.rig().map(), end) == 3);
        CHECK(is_take_of(script, session.played().messages));
        CHECK(same_messages(evening.news(), session.played().messages));
        CHECK(session.played().interruptions.empty());

        const auto machine = evening.rig().machine();
        check_all_well(machine);
        CHECK(machine.output == "Offline:output");
        CHECK(machine.input == "Offline:guitar");
        CHECK(machine.rate_hz == 48000);
        CHECK(machine.period_frames == 256);
        CHECK(machine.latency_ms == Approx(12.5));

        const auto judged = tune.judged(session.played(), end);
        CHECK(judged.totals.changes == 12);
        CHECK(judged.totals.count(assess::Verdict::on_time) == 12);
        CHECK(judged.totals.right_tones == 12);
        for (std::size_t i = 0; i < judged.changes.size(); ++i) {
            REQUIRE(judged.changes[i].lateness);
            CHECK(judged.changes[i].lateness->milliseconds() ==
                  Approx(static_cast<double>(i * 7 % 16)).margin(0.011));
        }
        evening.end();
        check_band(tune, evening.output(), zero, Seconds(12));
    }
}

TEST_CASE("with any period the band plays every stroke on its frame, and every note is timed",
          "[threads]") {
    const Tune tune(1);
    const auto script = tune.strums();
    for (const int period : {32, 441, 4096, 8192}) {
        CAPTURE(period);
        OfflineEvening evening(with_period(period), tune.map, tune.players);
        const auto zero = evening.start(tests::as_bytes(script));
        evening.go_on();
        CHECK(evening.trouble().empty());
        CHECK(evening.rig().machine().period_frames == period);
        check_all_well(evening.rig().machine());
        CHECK(is_take_of(script, evening.rig().session().played().messages));
        evening.end();
        check_band(tune, evening.output(), zero, Seconds(4));
    }
}

TEST_CASE("an audio thread that wakes up late moves no note that is timed by its moment",
          "[threads]") {
    const Tune tune(1);
    const auto script = tune.strums();
    OfflineEvening::Settings settings;
    settings.guitar = OfflineGuitar::TimedBy::moments;
    settings.output.wakes_up_late = true;
    OfflineEvening evening(settings, tune.map, tune.players);
    const auto zero = evening.start(tests::as_bytes(script));
    evening.go_on();
    check_all_well(evening.rig().machine());
    CHECK(is_take_of(script, evening.rig().session().played().messages));
    evening.end();
    check_band(tune, evening.output(), zero, Seconds(4));
}

TEST_CASE("a band that is stopped falls silent, and what is played is still heard", "[threads]") {
    const Tune tune(2);
    const auto script = tune.strums();
    OfflineEvening evening({}, tune.map, tune.players);
    const auto zero = evening.start(tests::as_bytes(script));
    evening.go_on_until(Seconds(2.5));
    evening.rig().stop();
    const Seconds stopped = evening.rig().now();
    CHECK(stopped < Seconds(2.5) + leash);
    evening.go_on();
    check_all_well(evening.rig().machine());
    CHECK(is_take_of(script, evening.rig().session().played().messages));
    evening.end();
    check_band(tune, evening.output(), zero, Seconds(2.4));
    const auto& left = evening.output().heard().left;
    const auto silent_from =
        frame_of(zero + stopped + leash, evening.output(), OfflineOutput::Settings{}.latency);
    REQUIRE(static_cast<std::int64_t>(left.size()) > silent_from + 48000);
    CHECK(std::all_of(left.begin() + silent_from, left.end(),
                      [](float sample) { return sample == 0.0F; }));
}

TEST_CASE("a band that starts over again and again begins with the count-in each time",
          "[threads]") {
    const Tune tune(1);
    const auto script = tune.strums();
    OfflineEvening evening({}, tune.map, tune.players);
    for (int again = 0; again < 30; ++again) {
        evening.start(tests::as_bytes(script));
        if (again % 10 == 9) evening.go_on_until(Seconds(again % 3));  // in the music
        if (again % 4 == 3) evening.rig().stop();
        for (int turn = 0; turn < again; ++turn) (void)evening.turn();
        if (again % 7 == 6) {  // faster than any finger
            for (int press = 0; press < 50; ++press) evening.rig().start();
        }
    }
    const auto zero = evening.start(tests::as_bytes(script));
    evening.go_on();
    CHECK(evening.trouble().empty());
    check_all_well(evening.rig().machine());
    const auto& session = evening.rig().session();
    CHECK(practice::times_over(evening.rig().map(), evening.rig().now()) == 1);
    CHECK(is_take_of(script, session.played().messages));
    CHECK(same_messages(evening.news(), session.played().messages));
    evening.end();
    check_band(tune, evening.output(), zero, Seconds(4));
}

TEST_CASE("a stream that calls no more is dead within half a second, sooner when it complained",
          "[threads]") {
    const Tune tune(std::nullopt);
    for (const std::string words : {"", "Offline: server gone"}) {
        OfflineEvening::Settings settings;
        settings.output.falls_silent = Frames(3 * 48000);
        settings.output.last_words = words;
        OfflineEvening evening(settings, tune.map, tune.players);
        const auto script = tune.strums();
        evening.start(tests::as_bytes(script));
        evening.go_on();
        const auto last_call = evening.rig().session().clock().last_called();
        REQUIRE(last_call);
        const Seconds silence = evening.now() - *last_call;
        CHECK(silence > Seconds(words.empty() ? 0.5 : 0.25));
        CHECK(silence < Seconds(words.empty() ? 0.5 : 0.25) + leash);
        CHECK(evening.trouble() ==
              "Offline:output plays no more" + (words.empty() ? "" : " (" + words + ")"));
        CHECK(evening.rig().trouble() == evening.trouble());

        // What was played until then is kept.
        const auto& taken = evening.rig().session().played().messages;
        CHECK(taken.size() > 8);
        CHECK(equal_from(0, script, taken, 0, half_a_frame) == taken.size());
        evening.rig().start();  // starting over does not wait for it either
        evening.rig().stop();
    }
}

TEST_CASE("a stream that never calls is given three seconds", "[threads]") {
    const Tune tune(1);
    OfflineEvening::Settings settings;
    settings.output.falls_silent = Frames(0);
    OfflineEvening evening(settings, tune.map, tune.players);
    evening.start();
    evening.go_on();
    CHECK(evening.trouble() == "Offline:output plays no more");
    CHECK(evening.now() - OfflineClock::start > Seconds(3));
    CHECK(evening.now() - OfflineClock::start < Seconds(3) + leash + leash);
}

TEST_CASE("a stream that cannot be started leaves nothing behind that it might still call",
          "[threads]") {
    const Tune tune(1);
    OfflineEvening::Settings settings;
    settings.output.refuses_to_start = true;
    for (int again = 0; again < 5; ++again) {
        CHECK_THROWS_AS(OfflineEvening(settings, tune.map, tune.players), live::DeviceError);
    }
}

TEST_CASE("sound that is lost is an interruption, and moves no note", "[threads]") {
    const Tune tune(2);
    const auto script = tune.strums();
    OfflineEvening::Settings settings;
    settings.output.loses_sound = Frames(4 * 48000 + 24000);
    OfflineEvening evening(settings, tune.map, tune.players);
    evening.start(tests::as_bytes(script));
    evening.go_on();
    CHECK(evening.trouble().empty());
    const auto& session = evening.rig().session();
    CHECK(evening.rig().machine().xruns == 1);
    REQUIRE(session.played().interruptions.size() == 1);
    const Seconds lost = session.played().interruptions.front();

    // The band stands still meanwhile: what is played after it is early by as much, in the tune.
    const auto& taken = session.played().messages;
    CHECK(taken.size() == script.size());
    const auto before = equal_from(0, script, taken, 0, half_a_frame);
    REQUIRE(before < script.size());
    CHECK(script[before].at > lost);
    auto moved = script;
    for (auto& timed : moved) timed.at = timed.at + Seconds(-0.1);
    CHECK(equal_from(before, moved, taken, before, half_a_frame) == script.size() - before);
}

TEST_CASE("a guitar whose cable is pulled and put back is heard again, timed as before",
          "[threads]") {
    const Tune tune(3);
    const auto script = tune.strums();
    for (const auto timed_by : {OfflineGuitar::TimedBy::frames, OfflineGuitar::TimedBy::moments}) {
        OfflineEvening::Settings settings;
        settings.guitar = timed_by;
        OfflineEvening evening(settings, tune.map, tune.players);
        const auto zero = evening.start(tests::as_bytes(script));
        evening.go_on_until(Seconds(2.5));
        CHECK(evening.trouble().empty());

        const auto& cable = evening.rig().guitar();
        evening.guitar().pull_cable();
        const auto pulled = evening.now();
        while (!cable.is_out() && evening.turn()) continue;
        CHECK(evening.now() - pulled < Seconds(0.25) + leash);
        while (evening.now() - pulled < Seconds(3)) {
            CHECK(evening.turn());
            CHECK(cable.is_out());  // it does not come and go with every question
        }
        evening.guitar().put_cable_back();
        const auto put_back = evening.now();
        while (cable.is_out() && evening.turn()) continue;
        CHECK(evening.now() - put_back < Seconds(0.25) + leash);
        evening.go_on();

        CHECK(evening.trouble().empty());
        const auto& session = evening.rig().session();
        CHECK(practice::is_finished(evening.rig().map(), evening.rig().now()));
        CHECK(session.played().interruptions.empty());
        const auto& cable_events = session.played().cable;
        REQUIRE(cable_events.size() == 2);
        CHECK(cable_events[0].out);
        CHECK_FALSE(cable_events[1].out);
        CHECK(time::abs(cable_events[0].at - (pulled - zero)) < Seconds(0.25) + leash);
        CHECK(time::abs(cable_events[1].at - (put_back - zero)) < Seconds(0.25) + leash);
        check_all_well(evening.rig().machine());
        const auto& taken = session.played().messages;
        const auto before = equal_from(0, script, taken, 0, half_a_frame);
        const auto after = taken.size() - before;
        CHECK(before >= 15);
        CHECK(after >= 30);
        CHECK(taken.size() < script.size());  // what was played meanwhile is lost
        CHECK(equal_from(script.size() - after, script, taken, before, half_a_frame) == after);
        evening.end();
        check_band(tune, evening.output(), zero, Seconds(12));
    }
}

TEST_CASE("messages that find no room, and bytes that make none, are counted", "[threads]") {
    const Tune tune(std::nullopt);
    constexpr std::size_t burst = 1000;
    std::vector<Sent> script;
    for (std::size_t i = 0; i < burst; ++i) {
        script.push_back({Seconds(0.5), {0x90, static_cast<std::uint8_t>(i % 128), 80}});
    }
    OfflineEvening::Settings settings;
    settings.room = 100;
    OfflineEvening evening(settings, tune.map, tune.players);
    const auto zero = evening.start(script);
    evening.stand_still();
    while (evening.guitar().sent() < burst) std::this_thread::yield();
    CHECK(evening.turn());
    const Seconds at = evening.rig().now() + Seconds(0.5);
    evening.guitar().play({{at, {0x90, 64, 0xF5, 12}},  // broken off, undefined, stray
                           {at + Seconds(0.1), {0x91, 50, 80}}},
                          zero);
    evening.go_on_until(at + Seconds(0.2));

    const auto machine = evening.rig().machine();
    CHECK(machine.unreadable_bytes == 4);
    CHECK(machine.dropped_events > 0);
    const auto& taken = evening.rig().session().played().messages;
    CHECK(taken.size() + static_cast<std::size_t>(machine.dropped_events) == burst + 1);
    CHECK(taken.size() > settings.room);
    CHECK(taken.back().message == midi::note_on(2, 50, 80));
    CHECK(taken.back().at.count() ==
          Approx((at + Seconds(0.1)).count()).margin(half_a_frame.count()));
}

TEST_CASE("without a guitar the band plays alone", "[threads]") {
    const Tune tune(1);
    OfflineEvening::Settings settings;
    settings.guitar.reset();
    OfflineEvening evening(settings, tune.map, tune.players);
    const auto zero = evening.start();
    evening.go_on();
    CHECK(evening.trouble().empty());
    check_all_well(evening.rig().machine());
    CHECK(evening.rig().machine().input.empty());
    CHECK(evening.rig().session().played().messages.empty());
    evening.end();
    check_band(tune, evening.output(), zero, Seconds(4));
}

TEST_CASE("a rig may go at any time while all its threads are busy", "[threads]") {
    const Tune tune(std::nullopt);
    const auto script = tests::as_bytes(tune.strums());
    for (int turns = 0; turns < 40; ++turns) {
        OfflineEvening::Settings settings = with_period(turns % 2 == 0 ? 64 : 1024);
        settings.guitar =
            turns % 3 == 0 ? OfflineGuitar::TimedBy::moments : OfflineGuitar::TimedBy::frames;
        OfflineEvening evening(settings, tune.map, tune.players);
        if (turns % 4 != 0) evening.start(script);
        for (int turn = 0; turn < turns * 3; ++turn) (void)evening.turn();
        if (turns % 5 == 4) evening.rig().start();
    }
    SUCCEED("nothing was used after it had gone, and nobody waited for ever");
}
