#include "support/loudness.hpp"

#include "support/catch.hpp"

#include <compline/sound/wav.hpp>
#include <compline/time/units.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using time::SampleRate;

namespace {

sound::Stereo sine(double hz, double dbfs, time::Seconds length, SampleRate rate) {
    sound::Stereo sound;
    const auto amplitude = std::pow(10.0, dbfs / 20);
    for (std::int64_t i = 0; i < time::nearest_frame(length, rate).count(); ++i) {
        const double turns = hz * static_cast<double>(i) / rate.hz();
        sound.left.push_back(static_cast<float>(amplitude * std::sin(6.283185307179586 * turns)));
    }
    sound.right = sound.left;
    return sound;
}

}  // namespace

TEST_CASE("the loudness meter shows what EBU Tech 3341 asks of a meter") {
    // Its first two tests (from memory): 20 s of a sine of 1 kHz on both sides at -23 dBFS are
    // -23.0 LUFS, at -33 dBFS -33.0, each to a tenth.
    for (const int hz : {44100, 48000}) {
        const SampleRate rate(hz);
        for (const double dbfs : {-23.0, -33.0}) {
            const auto measured =
                tests::loudness_of(sine(997, dbfs, time::Seconds(20), rate), rate);
            CHECK(measured.integrated_lufs == Approx(dbfs).margin(0.1));
            CHECK(measured.peak_dbfs == Approx(dbfs).margin(0.01));
        }
    }
}

TEST_CASE("the loudness meter leaves silence out and hears one side 3 dB softer than two") {
    const SampleRate rate(48000);
    auto sound = sine(997, -23, time::Seconds(10), rate);
    sound.left.resize(2 * sound.left.size());
    sound.right.resize(sound.left.size());
    CHECK(tests::loudness_of(sound, rate).integrated_lufs == Approx(-23.0).margin(0.2));
    std::fill(sound.right.begin(), sound.right.end(), 0.0F);
    CHECK(tests::loudness_of(sound, rate).integrated_lufs == Approx(-26.0).margin(0.2));
}

TEST_CASE("the loudness meter finds the peak that lies between the samples") {
    // EBU Tech 3341's true-peak tests (from memory): a sine of a quarter of the sampling rate, at
    // an eighth of its turn from the samples, has samples 3 dB below its peak; +0.2 to -0.4 dB.
    const SampleRate rate(48000);
    sound::Stereo sound;
    for (int i = 0; i < 48000; ++i) {
        // In and out again, so that no step makes a peak of its own.
        const float fade = static_cast<float>(std::min({i, 47999 - i, 4800})) / 4800.0F;
        sound.left.push_back(i % 4 < 2 ? fade * 0.353553F : fade * -0.353553F);
    }
    sound.right = sound.left;
    CHECK(tests::loudness_of(sound, rate).peak_dbfs == Approx(-9.03).margin(0.01));
    CHECK(tests::true_peak_of(sound, rate) < -6.02 + 0.2);
    CHECK(tests::true_peak_of(sound, rate) > -6.02 - 0.4);
}
