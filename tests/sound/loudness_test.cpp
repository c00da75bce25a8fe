#include "support/loudness.hpp"

#include "support/catch.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/chart/form.hpp>
#include <compline/sound/render.hpp>

#include <cmath>
#include <filesystem>

using namespace compline;
using time::Frames;
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

/// The band on a chart of ours, once through at its own tempo.
sound::Stereo played(const std::filesystem::path& path, const sound::Bank& bank) {
    const auto form = chart::unroll(chart::load_chart(path));
    const auto tempo = form.chart.tempo;
    const time::Groove groove{time::Timeline(tempo), form.chart.swing_at(tempo)};
    const auto part = band::arrange(form, {form.whole(), 1, 2});
    const auto cues = band::place(part, groove, bank.rate(), Frames(0));
    return sound::render(cues, bank, {cues.front().at, sound::end_of(cues, bank, Frames(0))});
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

TEST_CASE("the band is as loud as music is, on every chart of ours, and never clips") {
    const SampleRate rate(48000);
    const sound::Bank bank(rate);
    const auto charts = std::filesystem::path(COMPLINE_SOURCE_DIR) / "charts";
    int heard = 0;
    for (const auto& entry : std::filesystem::directory_iterator(charts)) {
        if (entry.path().extension() != ".yaml") continue;
        const auto measured = tests::loudness_of(played(entry.path(), bank), rate);
        UNSCOPED_INFO(entry.path().filename().string()
                      << ": " << measured.integrated_lufs << " LUFS, peak " << measured.peak_dbfs
                      << " dBFS");
        CHECK(measured.integrated_lufs == Approx(-20.0).margin(2.0));
        CHECK(measured.peak_dbfs < -1.0);
        ++heard;
    }
    CHECK(heard >= 4);
}
