#include "live/offline_rig.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/band/place.hpp>
#include <compline/live/conductor_thread.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <string>
#include <thread>
#include <utility>
#include <vector>

using namespace compline;
using time::Frames;

namespace {

constexpr time::SampleRate rate{48000};

/// A band that plays until it is stopped, and a thread that feeds it. Who calls play() is the audio
/// thread.
struct Bandstand {
    struct Settings {
        std::string bars = "Dm7 | G7 | Cmaj7 | A7";
        double bpm = 240;  // a bar a second
        int period = 256;
    };
    Bandstand() : Bandstand(Settings{}) {}
    explicit Bandstand(const Settings& settings)
        : period(settings.period), map(road(tests::form_of(settings.bars), settings.bpm)) {}

    static roadmap::RoadMap road(const chart::Form& form, double bpm) {
        auto asked = roadmap::Asked::of(form.whole(), std::nullopt);
        asked.tempo = time::Bpm(bpm);
        asked.swing = roadmap::AskedSwing{1.0};
        asked.count_in_bars = 1;
        return {form, asked};
    }

    int period;
    roadmap::RoadMap map;
    std::shared_ptr<const sound::Bank> bank = tests::bank_at(rate);
    tests::OfflineClock clock;
    live::Playback playback{*bank, nullptr, clock};
    practice::Conductor conductor{map, {}, {}, rate};
    live::ConductorThread thread{conductor, playback, period, clock};
    std::vector<float> left = std::vector<float>(static_cast<std::size_t>(period));
    std::vector<float> right = left;

    /// The next block; whether anything sounds in it.
    bool play() {
        playback.run({left.data(), right.data(), period});
        return std::any_of(left.begin(), left.end(), [](float sample) { return sample != 0; });
    }
    /// The same, once the thread has had a turn.
    bool play_after_feeding() {
        const auto until = clock.now() + time::time_of(Frames(period), rate);
        clock.move_on(until);
        clock.leaves(tests::OfflineClock::main_loop);
        while (!clock.all_have_done(until)) std::this_thread::yield();
        return play();
    }
};

}  // namespace

TEST_CASE("a band without an end is fed for as long as it plays, and no longer", "[threads]") {
    Bandstand stand;
    const auto zero = stand.thread.start();
    CHECK(zero >= Frames(4800 + 48000));
    for (int bar = 1; bar <= 10; ++bar) {
        bool sounds = false;
        while (stand.playback.made() < zero + Frames(bar * 48000)) {
            sounds = stand.play_after_feeding() || sounds;
        }
        CHECK(sounds);
    }
    CHECK(stand.thread.missed() == 0);
    stand.thread.stop();
    for (int block = 0; block < 10; ++block) (void)stand.play();  // what sounded fades
    bool sounds = false;
    for (int block = 0; block < 1000; ++block) sounds = stand.play() || sounds;
    CHECK_FALSE(sounds);
}

TEST_CASE(
    "the band begins a tenth of a second after the command, or two periods where that is more",
    "[threads]") {
    for (const auto& [period, run_up] : {std::pair{32, 4800}, {2048, 4800}, {8192, 16384}}) {
        Bandstand stand({.period = period});
        (void)stand.play();
        CHECK(stand.thread.start() == stand.playback.made() + Frames(run_up + 48000));
    }
}

TEST_CASE("strokes that find no room are offered again, and none is missed", "[threads]") {
    Bandstand stand;
    Frames zero(0);
    // Nobody takes what these starts hand over, until it is more than the queue holds.
    while (stand.playback.mixer().counts().dropped == 0) zero = stand.thread.start();
    bool clicked = false;
    while (stand.playback.made() < zero) clicked = stand.play_after_feeding() || clicked;
    CHECK(clicked);
    CHECK(stand.thread.missed() == 0);
}

TEST_CASE("strokes that are fed too late are counted, and none of them is played", "[threads]") {
    Bandstand stand;
    (void)stand.thread.start();
    // Ten bars in one block: not before its end can the thread know how far the music has come.
    std::vector<float> left(480000);
    std::vector<float> right(left.size());
    stand.playback.run({left.data(), right.data(), static_cast<int>(left.size())});
    CHECK(stand.thread.missed() == 0);
    while (stand.thread.missed() == 0) {
        (void)stand.play();
        std::this_thread::yield();
    }
    CHECK(stand.playback.mixer().counts().stolen == 0);  // no bang of all of them at once
}

TEST_CASE("many decisions before the next block leave of each other what the last one leaves",
          "[threads]") {
    Bandstand stand;
    const auto zero = stand.thread.start();
    while (stand.playback.made() < zero) (void)stand.play_after_feeding();
    auto map = stand.map;
    // Nearer first, so that each of them needs less to be forgotten than the one before.
    for (const std::int64_t bar : {2, 2, 3}) {
        map = map.with({bar, roadmap::NewTempo{time::Bpm(bar == 3 ? 160 : 200)}});
        stand.thread.follow(map, bar);
    }
    const auto first = stand.playback.made();
    std::vector<float> heard;
    while (stand.playback.made() < zero + Frames(48000 * 6)) {
        (void)stand.play_after_feeding();
        heard.insert(heard.end(), stand.left.begin(), stand.left.end());
    }
    CHECK(stand.thread.missed() == 0);
    const auto cues =
        band::place(band::arrange(map.first(6), {}), map, rate, zero, {}, zero + Frames(-48000));
    const auto expected =
        sound::render(cues, *stand.bank, {zero + Frames(-48000), zero + Frames(48000 * 6), 512})
            .left;
    const auto skipped = (first - zero).count() + 48000;
    REQUIRE(heard.size() + static_cast<std::size_t>(skipped) >= expected.size());
    CHECK(std::equal(expected.begin() + skipped, expected.end(), heard.begin()));
}

TEST_CASE("several threads may start and stop the band at once while it plays", "[threads]") {
    // A bar is soon over at this tempo, so the thread has something to write whenever it looks in,
    // and is found at it.
    Bandstand stand({"C6", 400});
    std::atomic<int> busy{2};
    const auto press = [&](int presses) {
        for (int i = 0; i < presses; ++i) {
            if (i % 5 == 4) {
                stand.thread.stop();
            } else {
                (void)stand.thread.start();
            }
            std::this_thread::sleep_for(std::chrono::microseconds(37 * (i % 7)));
        }
        busy.fetch_sub(1, std::memory_order_relaxed);
    };
    std::thread one(press, 500);
    std::thread two(press, 555);
    while (busy.load(std::memory_order_relaxed) > 0) (void)stand.play();
    one.join();
    two.join();

    stand.thread.stop();
    for (int block = 0; block < 10; ++block) (void)stand.play();
    CHECK_FALSE(stand.play());
    const auto zero = stand.thread.start();
    bool clicked = false;
    while (stand.playback.made() < zero) clicked = stand.play() || clicked;
    CHECK(clicked);
}
