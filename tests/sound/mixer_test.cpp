#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/flush_to_zero.hpp>
#include <compline/sound/mixer.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

using namespace compline;
using sound::Cue;
using sound::SoundId;
using time::Frames;
using time::SampleRate;

namespace {

const SampleRate rate(48000);
const SoundId click(0);
const SoundId drone(1);

/// A click of one sample, and ten seconds of a steady 1.
const sound::Bank& simple_bank() {
    static const sound::Bank bank(rate, {{1.0F}, sound::Samples(480000, 1.0F)});
    return bank;
}

Cue cue_at(std::int64_t frame, SoundId sound) { return {Frames(frame), Cue::never, sound}; }

struct Block {
    std::vector<float> left;
    std::vector<float> right;
};

Block block_of(sound::Mixer& mixer, std::int64_t first, int frames) {
    Block block{std::vector<float>(static_cast<std::size_t>(frames), 9.0F),
                std::vector<float>(static_cast<std::size_t>(frames), 9.0F)};
    mixer.render(Frames(first), block.left.data(), block.right.data(), frames);
    return block;
}

bool same(const sound::Stereo& a, const sound::Stereo& b) {
    return a.left == b.left && a.right == b.right;
}

const float middle = std::sqrt(0.5F);  // either side of a sound in the middle

}  // namespace

TEST_CASE("a mixer without cues is silent") {
    sound::Mixer mixer(simple_bank());
    const auto block = block_of(mixer, -100, 64);
    CHECK(block.left == std::vector<float>(64, 0.0F));
    CHECK(block.right == std::vector<float>(64, 0.0F));
}

TEST_CASE("a cue starts on its own frame, also before zero and inside a block") {
    sound::Mixer mixer(simple_bank());
    REQUIRE(mixer.push(cue_at(-90, click)));
    REQUIRE(mixer.push(cue_at(-37, click)));
    const auto block = block_of(mixer, -100, 64);
    for (std::size_t i = 0; i < 64; ++i) {
        CHECK(block.left[i] == (i == 10 || i == 63 ? middle : 0.0F));
    }
}

TEST_CASE("the band's samples do not depend on the size of the blocks, bit for bit") {
    const sound::Bank bank(rate);
    const auto form = tests::make_form(time::Meter(4), time::Bpm(287), {"F7", "Bb7 Bdim7"});
    const auto booking = tests::Booking::of(form.whole(), 2, 1);
    const auto cues = band::place(booking.play(form), booking.map(form), rate, Frames(0));
    const sound::Excerpt excerpt{cues.front().at - Frames(11), Frames(200000), 4096};
    const auto whole = sound::render(cues, bank, excerpt);
    for (const int size : {1, 37, 64}) {
        CAPTURE(size);
        CHECK(same(sound::render(cues, bank, {excerpt.first, excerpt.end, size}), whole));
    }
}

TEST_CASE("blocks of any size agree when voices run out and fades overlap") {
    std::vector<Cue> cues;
    for (int i = 0; i < 200; ++i) {
        const auto sound = i % 3 == 0 ? click : drone;
        Cue cue = cue_at(i * 61 / 2, sound);
        cue.gain = 0.01F * static_cast<float>(i % 17 + 1);
        cue.pan = static_cast<float>(i % 9) / 4.0F - 1.0F;
        if (i % 4 == 0) cue.stop = cue.at + Frames(i * 7);
        cues.push_back(cue);
    }
    const auto whole = sound::render(cues, simple_bank(), {Frames(0), Frames(9000), 9000});
    for (const int size : {1, 37, 64, 4096}) {
        CHECK(same(sound::render(cues, simple_bank(), {Frames(0), Frames(9000), size}), whole));
    }
}

TEST_CASE("pan is of equal power and gain is a factor") {
    for (const float pan : {-1.0F, -0.5F, 0.0F, 0.7F, 1.0F, 2.0F}) {
        sound::Mixer mixer(simple_bank());
        mixer.push({Frames(0), Cue::never, drone, 0.5F, pan});
        const auto block = block_of(mixer, 0, 1);
        const float power = block.left[0] * block.left[0] + block.right[0] * block.right[0];
        CHECK(power == Approx(0.25F));
        if (pan == -1.0F) CHECK(block.right[0] == 0.0F);
        if (pan >= 1.0F) CHECK(block.left[0] == 0.0F);
        if (pan == 0.7F) CHECK(block.right[0] > block.left[0]);
    }
}

TEST_CASE("a damped sound fades without a step and is over after the release") {
    sound::Mixer mixer(simple_bank());
    Cue cue = cue_at(0, drone);
    cue.stop = Frames(500);
    mixer.push(cue);
    const int release = 1440;  // 30 ms at 48 kHz
    const auto block = block_of(mixer, 0, 500 + release + 10);
    CHECK(block.left[499] == middle);
    for (std::size_t i = 1; i < block.left.size(); ++i) {
        CHECK(std::fabs(block.left[i] - block.left[i - 1]) <= 1.01F / release);
    }
    CHECK(block.left[500 + release - 1] > 0.0F);
    CHECK(block.left[500 + release] == 0.0F);
}

TEST_CASE("a cue whose frame has passed is skipped and counted") {
    sound::Mixer mixer(simple_bank());
    (void)block_of(mixer, 0, 64);
    mixer.push(cue_at(63, click));
    mixer.push(cue_at(64, click));
    const auto block = block_of(mixer, 64, 64);
    CHECK(block.left[0] == middle);
    CHECK(block.left[1] == 0.0F);
    CHECK(mixer.counts() == sound::Mixer::Counts{0, 1, 0});
}

TEST_CASE("a full queue drops what comes, says so and counts it") {
    sound::Mixer mixer(simple_bank(), 15);
    int taken = 0;
    for (int i = 0; i < 100; ++i) taken += mixer.push(cue_at(i, click)) ? 1 : 0;
    CHECK(taken >= 15);
    CHECK(taken < 100);
    CHECK(mixer.counts().dropped == static_cast<std::uint64_t>(100 - taken));
    const auto block = block_of(mixer, 0, 100);
    CHECK(block.left[static_cast<std::size_t>(taken) - 1] == middle);
    CHECK(block.left[static_cast<std::size_t>(taken)] == 0.0F);
}

TEST_CASE("with every voice taken the oldest gives way, and is counted") {
    sound::Mixer mixer(simple_bank());
    constexpr int voices = static_cast<int>(sound::Mixer::voice_count);
    for (int i = 0; i < voices + 8; ++i) {
        Cue cue = cue_at(i, drone);
        cue.gain = i < 8 ? 100.0F : 1.0F;  // the eight oldest are loud
        mixer.push(cue);
    }
    const auto block = block_of(mixer, 0, 100);
    CHECK(mixer.counts().stolen == 8);
    CHECK(block.left[7] > 100.0F);
    CHECK(block.left[99] == Approx(voices * middle));
}

TEST_CASE("a drummer who plays all he has at 400 bpm takes no sound's voice") {
    const sound::Bank bank(rate);
    constexpr std::int64_t beat = 48000 * 60 / 400;
    std::vector<Cue> cues;
    for (int b = 0; b < 64; ++b) {
        const auto strike = [&](SoundId sound, std::int64_t twelfths) {
            cues.push_back(cue_at(b * beat + beat * twelfths / 12, sound));
        };
        strike(sound::ride, 0);
        strike(sound::kick, 0);
        strike(b % 4 == 0 ? sound::crash : sound::hihat_foot, 0);
        cues.push_back(cue_at(b * beat, sound::bass(harmony::MidiNote(28 + b % 28))));
        cues.back().stop = cues.back().at + Frames(beat * 9 / 10);
        for (const int third : {0, 4, 8}) strike(third == 4 ? sound::tom : sound::snare, third);
        if (b % 2 == 1) strike(sound::ride, 8);
    }
    std::stable_sort(cues.begin(), cues.end(),
                     [](const Cue& a, const Cue& b) { return a.at < b.at; });
    sound::Mixer mixer(bank);
    for (const auto& cue : cues) REQUIRE(mixer.push(cue));
    (void)block_of(mixer, 0, static_cast<int>(64 * beat));
    CHECK(mixer.counts() == sound::Mixer::Counts{});
}

TEST_CASE("a voice is free again on the frame after its sound") {
    sound::Mixer mixer(simple_bank());
    constexpr int voices = static_cast<int>(sound::Mixer::voice_count);
    for (int i = 0; i < 10 * voices; ++i) mixer.push(cue_at(i / voices, click));
    const auto block = block_of(mixer, 0, 10);
    for (const float sample : block.left) CHECK(sample == Approx(middle * voices));
    CHECK(mixer.counts() == sound::Mixer::Counts{});
}

TEST_CASE("a sound that the bank does not have takes no voice") {
    sound::Mixer mixer(simple_bank());
    for (std::size_t i = 0; i < sound::Mixer::voice_count; ++i) mixer.push(cue_at(0, drone));
    mixer.push(cue_at(1, SoundId(77)));
    const auto block = block_of(mixer, 0, 64);
    CHECK(block.left[63] == block.left[0]);
    CHECK(mixer.counts().stolen == 0);
}

TEST_CASE("cues pushed while another thread renders all sound or are counted", "[threads]") {
    sound::Mixer mixer(simple_bank(), 64);
    constexpr int cue_count = 20000;
    std::atomic<bool> written{false};
    std::thread writer([&] {
        for (int i = 0; i < cue_count; ++i) {
            while (!mixer.push(cue_at(i * 7, click))) std::this_thread::yield();
        }
        written = true;
    });
    std::uint64_t heard = 0;
    std::int64_t frame = 0;
    for (bool last = false; !last;) {
        last = written;
        // The clock of this test waits for the writer now and then, so that some cues are in time.
        if (!last && frame > cue_count * 7) frame = cue_count * 7;
        const auto block = block_of(mixer, frame, 64);
        for (const float sample : block.left) heard += sample != 0.0F ? 1 : 0;
        frame += 64;
        if (frame % 4096 == 0) std::this_thread::yield();
    }
    writer.join();
    const auto rest = block_of(mixer, frame, 200000);
    for (const float sample : rest.left) heard += sample != 0.0F ? 1 : 0;
    CHECK(heard + mixer.counts().late == cue_count);
    CHECK(mixer.counts().stolen == 0);
}

#if defined(__SSE2__) || defined(__aarch64__)
TEST_CASE("a mixer takes denormal samples for silence, whoever calls it") {
    const sound::Bank faint(rate, {sound::Samples(64, 1e-39F)});
    sound::Mixer mixer(faint);
    mixer.push(cue_at(0, click));
    CHECK(block_of(mixer, 0, 64).left == std::vector<float>(64, 0.0F));
}
#endif

TEST_CASE("denormal numbers are zero while flushed, and come back after") {
    volatile float tiny = 1e-39F;
    const auto twice = [&] { return tiny * 2.0F; };
    REQUIRE(twice() != 0.0F);
    {
        const sound::ScopedFlushToZero flush;
#if defined(__SSE2__) || defined(__aarch64__)
        CHECK(twice() == 0.0F);
#endif
    }
    CHECK(twice() != 0.0F);
}

TEST_CASE("starting over forgets what waits and damps what sounds, and plays what comes after") {
    sound::Mixer mixer(simple_bank());
    REQUIRE(mixer.push(cue_at(0, drone)));
    REQUIRE(mixer.push(cue_at(700, click)));
    (void)block_of(mixer, 0, 64);
    mixer.start_over();
    REQUIRE(mixer.push(cue_at(200, click)));  // earlier than one that waits
    const auto after = block_of(mixer, 64, 8000);
    const auto release =
        static_cast<std::size_t>(time::nearest_frame(sound::release, simple_bank().rate()).count());
    CHECK(after.left[0] == Approx(middle));
    CHECK(after.left[release / 2] == Approx(middle / 2).epsilon(0.01));
    CHECK(after.left[200 - 64] - after.left[201 - 64] == Approx(middle).epsilon(0.01));
    CHECK(after.left[release] == 0.0F);
    for (std::size_t i = release; i < after.left.size(); ++i) REQUIRE(after.left[i] == 0.0F);
    CHECK(mixer.counts() == sound::Mixer::Counts{});
}

TEST_CASE("cues pushed while the old ones still play do not sound before the old are let go") {
    sound::Mixer mixer(simple_bank());
    for (int i = 0; i < 500; ++i) REQUIRE(mixer.push(cue_at(100000 + i, click)));
    mixer.start_over();
    REQUIRE(mixer.push(cue_at(3, click)));
    mixer.start_over();
    REQUIRE(mixer.push(cue_at(5, click)));
    const auto block = block_of(mixer, 0, 64);
    for (std::size_t i = 0; i < 64; ++i) CHECK(block.left[i] == (i == 5 ? middle : 0.0F));
}
