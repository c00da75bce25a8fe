#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/temporary_folder.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <stdexcept>

using namespace compline;
using sound::Cue;
using time::Bpm;
using time::Frames;
using time::SampleRate;

namespace {

const SampleRate rate(48000);

std::vector<Cue> blues(double bpm, int times) {
    const auto form = tests::make_form(time::Meter(4), Bpm(bpm),
                                       {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "D7b9",
                                        "Gm7", "C7", "F7 D7", "Gm7 C7"});
    const auto booking = tests::Booking::of(form.whole(), times);
    return band::place(booking.play(form), booking.map(form), rate, Frames(0));
}

}  // namespace

TEST_CASE("a render lasts until the last sound has died away") {
    const sound::Bank bank(rate, {sound::Samples(100, 0.5F)});
    std::vector<Cue> cues = {{Frames(10), Cue::never, sound::SoundId(0)},
                             {Frames(50), Frames(60), sound::SoundId(0)}};
    CHECK(sound::end_of(cues, bank, Frames(0)) == Frames(150));
    CHECK(sound::end_of({}, bank, Frames(7)) == Frames(7));
    const auto heard = sound::render(cues, bank, {Frames(0), Frames(150), 64});
    REQUIRE(heard.left.size() == 150);
    CHECK(heard.left[9] == 0.0F);
    CHECK(heard.left[10] != 0.0F);
    CHECK(heard.left[149] != 0.0F);
}

TEST_CASE("a sound that the bank has not got is refused, not rendered as silence") {
    const sound::Bank plain(rate);
    const std::vector<Cue> cues = {{Frames(10), Cue::never, sound::guitar(harmony::MidiNote(60))}};
    CHECK_THROWS_AS(sound::render(cues, plain, {Frames(0), Frames(100), 64}), std::logic_error);
    const sound::Bank full(rate, sound::Bank::Guitar::with);
    CHECK(sound::render(cues, full, {Frames(0), Frames(100), 64}).left[99] != 0.0F);
    CHECK_THROWS_AS(plain.refuse_without(sound::Bank::Guitar::with), std::logic_error);
    CHECK_NOTHROW(plain.refuse_without(sound::Bank::Guitar::without));
    CHECK_NOTHROW(full.refuse_without(sound::Bank::Guitar::with));
}

TEST_CASE("a render may begin inside the tune: what came before is left out") {
    const sound::Bank bank(rate, {{1.0F}});
    std::vector<Cue> cues = {{Frames(10), Cue::never, sound::SoundId(0)},
                             {Frames(50), Cue::never, sound::SoundId(0)}};
    const auto heard = sound::render(cues, bank, {Frames(20), Frames(60), 512});
    REQUIRE(heard.left.size() == 40);
    CHECK(std::count(heard.left.begin(), heard.left.end(), 0.0F) == 39);
    CHECK(heard.left[30] != 0.0F);
    // However much it was: none of it takes the queue's room.
    std::vector<Cue> long_before(5000, Cue{Frames(3), Cue::never, sound::SoundId(0)});
    long_before.push_back(cues.back());
    CHECK(sound::render(long_before, bank, {Frames(20), Frames(60)}).left == heard.left);
}

TEST_CASE("more sounds at one moment than can be played is an error, not a loss") {
    const sound::Bank bank(rate, {{1.0F}});
    const std::vector<Cue> cues(5000, Cue{Frames(3), Cue::never, sound::SoundId(0)});
    CHECK_THROWS_AS(sound::render(cues, bank, {Frames(0), Frames(60)}), std::length_error);
}

TEST_CASE("the band keeps a decibel of headroom at every tempo, and is not timid") {
    const sound::Bank bank(rate);
    for (const double bpm : {40.0, 132.0, 240.0, 400.0}) {
        const auto cues = blues(bpm, 1);
        const sound::Excerpt excerpt{cues.front().at, sound::end_of(cues, bank, Frames(0)), 512};
        float peak = 0;
        sound::render(cues, bank, excerpt, [&](const float* left, const float* right, int frames) {
            for (int i = 0; i < frames; ++i) {
                peak = std::max({peak, std::fabs(left[i]), std::fabs(right[i])});
            }
        });
        CAPTURE(bpm, peak);
        CHECK(peak <= std::pow(10.0F, -1.0F / 20.0F));
        CHECK(peak >= 0.25F);
    }
}

TEST_CASE("a file and memory hold the same samples") {
    const tests::TemporaryFolder folder;
    const sound::Bank bank(rate);
    const auto cues = blues(300, 1);
    const sound::Excerpt excerpt{cues.front().at, sound::end_of(cues, bank, Frames(0)), 512};
    const auto heard = sound::render(cues, bank, excerpt);
    const float peak = sound::render_wav(cues, bank, excerpt, folder.file("a.wav"));
    float loudest = 0;
    for (const float s : heard.left) loudest = std::max(loudest, std::fabs(s));
    for (const float s : heard.right) loudest = std::max(loudest, std::fabs(s));
    CHECK(peak == loudest);
    const auto wav = sound::read_wav(folder.file("a.wav"));
    REQUIRE(wav.sound.left.size() == heard.left.size());
    float furthest = 0;
    for (std::size_t i = 0; i < heard.left.size(); ++i) {
        furthest = std::max({furthest, std::fabs(heard.left[i] - wav.sound.left[i]),
                             std::fabs(heard.right[i] - wav.sound.right[i])});
    }
    CHECK(furthest <= 1.2e-7F);
}

TEST_CASE("a render to a file tells how far it is, now and then, and at last that it is done") {
    const tests::TemporaryFolder folder;
    const sound::Bank bank(rate, {{1.0F}});
    const std::vector<Cue> cues = {{Frames(0), Cue::never, sound::SoundId(0)}};
    std::vector<double> shares;
    sound::render_wav(cues, bank, {Frames(0), Frames(1000000), 512}, folder.file("a.wav"), {},
                      [&](double share) { shares.push_back(share); });
    CHECK(shares.size() == 100);
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.front() == Approx(0.01).margin(0.001));
    CHECK(shares.back() == 1.0);
    CHECK(std::count(shares.begin(), shares.end(), 1.0) == 1);
    // However few blocks there are.
    shares.clear();
    sound::render_wav(cues, bank, {Frames(0), Frames(100), 512}, folder.file("b.wav"), {},
                      [&](double share) { shares.push_back(share); });
    CHECK(shares == std::vector<double>{1.0});
}

TEST_CASE("a render that is given up leaves no file") {
    const tests::TemporaryFolder folder;
    const sound::Bank bank(rate, {{1.0F}});
    const auto enough = [](double share) {
        if (share > 0.5) throw std::runtime_error("enough");
    };
    CHECK_THROWS_AS(
        sound::render_wav({}, bank, {Frames(0), Frames(100000)}, folder.file("a.wav"), {}, enough),
        std::runtime_error);
    CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE("a render that would be too large is refused before a sound is made") {
    const tests::TemporaryFolder folder;
    const sound::Bank bank(rate, {{1.0F}});
    sound::WavFormat format;
    format.most_bytes = sound::bytes_needed(Frames(50000), format);
    bool began = false;
    CHECK_THROWS_AS(sound::render_wav({}, bank, {Frames(0), Frames(100000)}, folder.file("a.wav"),
                                      format, [&](double) { began = true; }),
                    files::FileError);
    CHECK_FALSE(began);
    CHECK(std::filesystem::is_empty(folder.path()));
}
