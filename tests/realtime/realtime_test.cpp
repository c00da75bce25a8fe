#include "realtime/forbidden.hpp"
#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/mixer.hpp>

#include <fcntl.h>
#include <pthread.h>
#include <unistd.h>

#include <cstdlib>
#include <memory>
#include <mutex>

using namespace compline;
using tests::Forbidden;
using tests::RealtimeGuard;
using tests::take_forbidden;
using time::Frames;
using time::SampleRate;

namespace {

const SampleRate rate(48000);

std::vector<sound::Cue> busy_chorus() {
    const time::Bpm bpm(280);
    const auto form = tests::make_form(time::Meter(4), bpm,
                                       {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "D7b9",
                                        "Gm7", "C7", "F7 D7", "Gm7 C7"});
    const auto booking = tests::Booking::of(form.whole(), 1);
    return band::place(booking.play(form), booking.map(form), rate, Frames(0));
}

/// One thread does what two do in use: pushes a block's cues, renders the block. Both guarded.
Forbidden calls_while_playing(sound::Mixer& mixer, const std::vector<sound::Cue>& cues, int block) {
    std::vector<float> left(static_cast<std::size_t>(block));
    std::vector<float> right(left.size());
    auto cue = cues.begin();
    (void)take_forbidden();
    const RealtimeGuard guard;
    const Frames end = cues.back().at + Frames(48000);
    for (Frames at = cues.front().at; at < end; at = at + Frames(block)) {
        for (; cue != cues.end() && cue->at < at + Frames(block); ++cue) mixer.push(*cue);
        mixer.render(at, left.data(), right.data(), block);
    }
    return take_forbidden();
}

template <typename Violation>
Forbidden calls_of(Violation violation) {
    (void)take_forbidden();
    const RealtimeGuard guard;
    violation();
    return take_forbidden();
}

}  // namespace

TEST_CASE(
    "playing a busy chorus allocates nothing, locks nothing, signals nothing, writes nothing") {
    const sound::Bank bank(rate);
    const auto cues = busy_chorus();
    for (const int block : {64, 37}) {
        sound::Mixer mixer(bank);
        const Forbidden calls = calls_while_playing(mixer, cues, block);
        CAPTURE(block, calls.text());
        CHECK(calls.total() == 0);
        CHECK(mixer.counts() == sound::Mixer::Counts{});
    }
}

TEST_CASE("late, dropped and stolen cues are counted without waiting either") {
    const sound::Bank bank(rate);
    const std::vector<sound::Cue> crowd(
        3000, sound::Cue{Frames(5), sound::Cue::never, sound::ride, 0.01F, 0.0F});
    sound::Mixer mixer(bank);
    Forbidden calls = calls_while_playing(mixer, crowd, 64);
    CHECK(calls.total() == 0);
    CHECK(mixer.counts().dropped > 0);
    CHECK(mixer.counts().stolen > 0);
    calls = calls_of([&] {
        float sample = 0;
        mixer.push(crowd[0]);
        mixer.render(Frames(999999), &sample, &sample, 1);
    });
    CHECK(calls.total() == 0);
    CHECK(mixer.counts().late == 1);
}

TEST_CASE("what waits is replaced, and what comes instead is played, without waiting") {
    const sound::Bank bank(rate);
    const auto cues = busy_chorus();
    sound::Mixer mixer(bank);
    for (const auto& cue : cues) mixer.push(cue);
    int replaced = 0;
    Forbidden calls = calls_of([&] {
        float left[64];
        float right[64];
        const auto next = cues.begin() + static_cast<std::ptrdiff_t>(cues.size() / 2);
        Frames at = cues.front().at;
        mixer.render(at, left, right, 64);
        replaced += mixer.replace_from(next->at) ? 1 : 0;
        replaced += mixer.replace_from(next->at) ? 1 : 0;  // refused
        mixer.render(at + Frames(64), left, right, 64);
        replaced += mixer.replace_from(cues[9].at) ? 1 : 0;
        for (auto cue = cues.begin() + 9; cue != cues.end(); ++cue) mixer.push(*cue);
        for (at = at + Frames(128); at < cues.back().at; at = at + Frames(64)) {
            mixer.render(at, left, right, 64);
        }
    });
    CAPTURE(calls.text());
    CHECK(calls.total() == 0);
    CHECK(replaced == 2);
    CHECK(mixer.counts() == sound::Mixer::Counts{});
}

TEST_CASE("a planted allocation is caught, by malloc and its kin and by new") {
    void* block = nullptr;
    CHECK(calls_of([&] { block = std::malloc(10); }).allocations == 1);
    CHECK(calls_of([&] { block = std::realloc(block, 100); }).allocations == 1);
    CHECK(calls_of([&] { std::free(block); }).releases == 1);
    CHECK(calls_of([&] { block = std::calloc(3, 4); }).allocations == 1);
    std::free(block);
    CHECK(calls_of([&] { block = std::aligned_alloc(64, 64); }).allocations == 1);
    std::free(block);
    CHECK(calls_of([&] { (void)::posix_memalign(&block, 64, 64); }).allocations == 1);
    std::free(block);

    std::unique_ptr<int> number;
    CHECK(calls_of([&] { number.reset(new int(3)); }).allocations == 1);
    CHECK(calls_of([&] { number.reset(); }).releases == 1);
    std::vector<float> samples;
    CHECK(calls_of([&] { samples.push_back(1.0F); }).allocations == 1);
    struct alignas(64) Wide {
        char bytes[64];
    };
    std::unique_ptr<Wide> wide;
    CHECK(calls_of([&] { wide = std::make_unique<Wide>(); }).allocations == 1);
}

TEST_CASE("a planted lock is caught") {
    std::mutex mutex;
    CHECK(calls_of([&] { const std::lock_guard lock(mutex); }).locks == 2);
    pthread_mutex_t plain = PTHREAD_MUTEX_INITIALIZER;
    CHECK(calls_of([&] { (void)::pthread_mutex_trylock(&plain); }).locks == 1);
    ::pthread_mutex_unlock(&plain);
}

TEST_CASE("a planted condition is caught, waited for or signalled") {
    pthread_cond_t condition = PTHREAD_COND_INITIALIZER;
    pthread_mutex_t mutex = PTHREAD_MUTEX_INITIALIZER;
    CHECK(calls_of([&] { ::pthread_cond_signal(&condition); }).conditions == 1);
    CHECK(calls_of([&] { ::pthread_cond_broadcast(&condition); }).conditions == 1);
    ::pthread_mutex_lock(&mutex);
    const timespec long_ago{1, 0};
    CHECK(calls_of([&] { ::pthread_cond_timedwait(&condition, &mutex, &long_ago); }).conditions ==
          1);
    ::pthread_mutex_unlock(&mutex);
}

TEST_CASE("a planted write is caught") {
    const int nowhere = ::open("/dev/null", O_WRONLY);
    REQUIRE(nowhere >= 0);
    CHECK(calls_of([&] { (void)!::write(nowhere, "x", 1); }).writes == 1);
    ::close(nowhere);
}

TEST_CASE("a planted violation in the middle of playing is caught") {
    const sound::Bank bank(rate);
    sound::Mixer mixer(bank);
    float sample = 0;
    const auto calls = calls_of([&] {
        mixer.render(Frames(0), &sample, &sample, 1);
        std::vector<float> scratch(64);
        mixer.render(Frames(1), &sample, &sample, 1);
    });
    CHECK(calls.allocations == 1);
    CHECK(calls.releases == 1);
}

TEST_CASE("what is done outside the guard is not counted") {
    (void)take_forbidden();
    std::free(std::malloc(10));
    CHECK(take_forbidden().total() == 0);
}
