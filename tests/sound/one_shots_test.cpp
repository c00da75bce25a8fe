#include "support/catch.hpp"

#include <compline/sound/bank.hpp>
#include <compline/sound/noise.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using sound::Samples;
using time::SampleRate;

namespace {

double peak(const Samples& samples) {
    float loudest = 0;
    for (const float s : samples) loudest = std::max(loudest, std::fabs(s));
    return loudest;
}

/// Root mean square over a share of the sound.
double level(const Samples& samples, double from, double to) {
    const auto size = static_cast<double>(samples.size());
    double sum = 0;
    int count = 0;
    for (auto i = static_cast<std::size_t>(from * size); i < static_cast<std::size_t>(to * size);
         ++i) {
        sum += static_cast<double>(samples[i]) * samples[i];
        ++count;
    }
    return std::sqrt(sum / count);
}

/// How much of a frequency there is (Goertzel's algorithm): a sine's amplitude.
double amount_of(double hz, const Samples& samples, double rate) {
    const double turn = 2 * std::cos(2 * 3.141592653589793 * hz / rate);
    double last = 0;
    double before = 0;
    for (const float sample : samples) {
        const double now = sample + turn * last - before;
        before = last;
        last = now;
    }
    const double power = last * last + before * before - turn * last * before;
    return 2 * std::sqrt(std::max(power, 0.0)) / static_cast<double>(samples.size());
}

std::vector<sound::SoundId> every_sound() {
    std::vector<sound::SoundId> sounds = {sound::ride, sound::hihat_foot, sound::kick,
                                          sound::stick};
    for (int n = 28; n <= 55; ++n) sounds.push_back(sound::bass(harmony::MidiNote(n)));
    for (int n = 40; n <= 88; ++n) sounds.push_back(sound::guitar(harmony::MidiNote(n)));
    return sounds;
}

}  // namespace

TEST_CASE("every sound speaks on its first sample, stays in bounds and dies away") {
    const sound::Bank bank(SampleRate(48000), sound::Bank::Guitar::with);
    for (const auto id : every_sound()) {
        const auto& samples = bank.samples(id);
        CAPTURE(id.index());
        REQUIRE(samples.size() > 1000);
        CHECK(samples.front() != 0.0F);
        CHECK(peak(samples) > 0.2);
        CHECK(peak(samples) < 0.7);
        CHECK(std::fabs(samples.back()) < 1e-4);
        CHECK(level(samples, 0.98, 1.0) < 0.05 * level(samples, 0.0, 0.1));
        CHECK(
            std::all_of(samples.begin(), samples.end(), [](float s) { return std::isfinite(s); }));
    }
}

TEST_CASE("the sounds are the same every time they are made") {
    const SampleRate rate(44100);
    CHECK(sound::make_ride(rate) == sound::make_ride(rate));
    CHECK(sound::make_bass(harmony::MidiNote(33), rate) ==
          sound::make_bass(harmony::MidiNote(33), rate));
}

TEST_CASE("the ride washes on, the foot hi-hat is short and dry") {
    const SampleRate rate(48000);
    CHECK(sound::make_ride(rate).size() == 72000);
    CHECK(level(sound::make_ride(rate), 0.3, 0.4) > 0.003);
    CHECK(sound::make_hihat_foot(rate).size() < 48000 / 5);
}

TEST_CASE("strings have the partials of their note at any rate") {
    for (const int hz : {44100, 96000}) {
        for (const int number : {28, 55}) {
            const harmony::MidiNote note(number);
            const auto samples = sound::make_bass(note, SampleRate(hz));
            const double tone = amount_of(note.hz(), samples, hz);
            CHECK(tone > 10 * amount_of(note.hz() * 1.5, samples, hz));
            CHECK(tone > 5 * amount_of(note.hz() * 1.06, samples, hz));
        }
    }
}

TEST_CASE("a bank without guitar is silent where the guitar would be") {
    const sound::Bank bank(SampleRate(8000));
    CHECK(bank.samples(sound::guitar(harmony::MidiNote(60))).empty());
    CHECK(bank.samples(sound::SoundId(9999)).empty());
    CHECK_FALSE(bank.samples(sound::bass(harmony::MidiNote(55))).empty());
}

TEST_CASE("noise is even between -1 and 1 and the same everywhere") {
    sound::Noise noise(1);
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < 100000; ++i) {
        const double x = noise.next();
        REQUIRE(std::fabs(x) <= 1.0);
        sum += x;
        squares += x * x;
    }
    CHECK(std::fabs(sum / 100000) < 0.01);
    CHECK(squares / 100000 == Approx(1.0 / 3).margin(0.01));
    // xorshift64* from seed 1, as its authors publish it: 0x47E4CE4B896CDD1D comes first.
    CHECK(sound::Noise(1).next() ==
          static_cast<double>(static_cast<std::int64_t>(0x47E4CE4B896CDD1DULL) >> 11) * 0x1p-52);
}
