#include "support/aubio.hpp"
#include "support/booking.hpp"
#include "support/calibrating.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/forms.hpp"
#include "support/onset_figures.hpp"
#include "support/plucked.hpp"
#include "support/temporary_folder.hpp"
#include "support/voicings.hpp"

#include <compline/band/place.hpp>
#include <compline/listen/sound_onsets.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using harmony::MidiNote;
using tests::OnsetFigures;
using tests::Pluck;
using time::SampleRate;
using time::Seconds;

namespace {

const SampleRate rate(48000);

/// A guitar's sound, and where its attacks begin.
struct Scene {
    std::vector<float> sound;
    std::vector<double> struck_s;

    [[nodiscard]] OnsetFigures heard() const {
        return tests::figures_of(struck_s, tests::seconds_of(tests::onsets_of(sound, rate), rate));
    }
};

Scene scene_of(const std::vector<Pluck>& plucks, std::uint64_t seed) {
    Scene scene;
    scene.sound = tests::plucked(plucks, rate, plucks.back().at + Seconds(0.6), seed);
    for (const auto& pluck : plucks) {
        scene.struck_s.push_back(time::time_of(time::nearest_frame(pluck.at, rate), rate).count());
    }
    return scene;
}

/// Single notes on all strings, low and high, soft and hard; each rings for so long.
std::vector<Pluck> singles(double ring_s) {
    simulate::Chance chance(1);
    auto plucks = tests::notes_by_string(8, chance);
    for (auto& pluck : plucks) pluck.rings = Seconds(ring_s);
    return plucks;
}

/// Strums of four chords down and up, softer and harder.
Scene strums(double spread_ms, double ring_s) {
    constexpr int grips[4][6] = {{67, 63, 58, 53, 48, 43},
                                 {64, 60, 55, 52, 48, 40},
                                 {65, 60, 57, 53, 48, 41},
                                 {66, 62, 57, 54, 50, 45}};
    simulate::Chance chance(4);
    std::vector<Pluck> plucks;
    std::vector<double> struck;
    double at = 0.5;
    for (std::size_t i = 0; i < 16; ++i) {
        struck.push_back(std::round(at * rate.hz()) / rate.hz());
        for (int k = 0; k < 6; ++k) {
            const int string = i % 3 == 2 ? k + 1 : 6 - k;
            const auto note = MidiNote(grips[i / 3 % 4][string - 1]);
            const double level = -17 + 6 * chance.uniform() - (i % 2 == 1 ? 6 : 0);
            plucks.push_back(
                {Seconds(at + spread_ms / 5000 * k), string, note, level, Seconds(ring_s)});
        }
        at += 0.25 + 0.3 * chance.uniform();
    }
    auto scene = scene_of(plucks, 11);
    scene.struck_s = struck;
    return scene;
}

/// The comping guitar of the band, as render writes it.
Scene band_guitar(double bpm) {
    const auto form = tests::make_form(
        time::Meter(4), time::Bpm(bpm),
        {"Dm7", "G7", "Cmaj7", "A7", "Fmaj7", "Bb7", "Em7", "A7", "Dm7", "Db7", "C6", "Eb7"});
    auto booking = tests::Booking::of(form.whole(), 1, 0);
    booking.players.voicings = tests::plan_by_hand(form);
    auto part = booking.play(form);
    part.strokes.clear();
    part.notes.clear();
    const auto cues = band::place(part, booking.map(form), rate, time::Frames(24000));
    static const sound::Bank bank(rate, sound::Bank::Guitar::with);
    const time::Frames first(0);
    auto stereo = sound::render(cues, bank, {first, sound::end_of(cues, bank, first)});
    Scene scene;
    for (std::size_t i = 0; i < stereo.left.size(); ++i) {
        scene.sound.push_back(0.5F * (stereo.left[i] + stereo.right[i]));
    }
    for (const auto& cue : cues) {
        const double at = time::time_of(cue.at, rate).count();
        const bool same = !scene.struck_s.empty() && at < scene.struck_s.back() + 0.065;
        if (!same) scene.struck_s.push_back(at);
    }
    return scene;
}

void expect_all(const OnsetFigures& figures) {
    CAPTURE(figures.wanted, figures.found, figures.extra, figures.bias_ms, figures.worst_ms);
    CHECK(figures.found == figures.wanted);
    CHECK(figures.extra == 0);
    CHECK(std::fabs(figures.bias_ms) < 0.1);
    CHECK(figures.within_ms_share >= 0.95);
}

}  // namespace

TEST_CASE("single notes are heard on the frame they begin, low and high, soft and hard") {
    for (const double ring_s : {0.25, 5.0}) {
        const auto figures = scene_of(singles(ring_s), 7).heard();
        CAPTURE(ring_s);
        expect_all(figures);
        CHECK(figures.worst_ms < 0.5);
    }
}

TEST_CASE("notes 30 dB softer than others are heard, over hum and hiss too") {
    auto plucks = singles(0.25);
    for (std::size_t i = 0; i < plucks.size(); ++i) plucks[i].level_db = i % 2 == 0 ? -6 : -36;
    const auto plain = scene_of(plucks, 9);
    expect_all(plain.heard());
    for (const double hz : {50.0, 60.0}) {
        auto scene = plain;
        tests::add_hum(scene.sound, rate, hz, -46);  // 40 dB under the hard ones
        tests::add_hiss(scene.sound, -80, 3);
        CAPTURE(hz);
        expect_all(scene.heard());
    }
}

TEST_CASE("hum and hiss alone, and silence, are no notes") {
    std::vector<float> sound(3 * 48000);
    CHECK(tests::onsets_of(sound, rate).empty());
    tests::add_hum(sound, rate, 50, -40);
    tests::add_hiss(sound, -60, 3);
    CHECK(tests::onsets_of(sound, rate).empty());
}

TEST_CASE("a sample that is no number makes nobody deaf") {
    auto scene = scene_of(singles(0.25), 7);
    scene.sound[100] = std::nanf("");
    scene.sound[30000] = INFINITY;
    expect_all(scene.heard());
}

TEST_CASE("a strum is one onset, that of its first string, however long it takes") {
    int wanted = 0;
    int found = 0;
    double within = 0;
    for (const double spread_ms : {0.0, 10.0, 30.0, 60.0}) {
        for (const double ring_s : {0.3, 5.0}) {
            const auto figures = strums(spread_ms, ring_s).heard();
            CAPTURE(spread_ms, ring_s, figures.found, figures.worst_ms);
            CHECK(figures.extra == 0);
            CHECK(std::fabs(figures.bias_ms) < 0.1);
            wanted += figures.wanted;
            found += figures.found;
            within += figures.within_ms_share * figures.found;
        }
    }
    // A soft first string can be covered by a loud chord that still rings.
    CHECK(found >= 0.97 * wanted);
    CHECK(within >= 0.97 * found);
}

TEST_CASE("the end of a note is no onset, nor is a finger that squeaks along a ringing string") {
    auto scene = scene_of(singles(0.25), 7);
    expect_all(scene.heard());
    std::uint64_t seed = 1;
    for (const double at : std::vector<double>(scene.struck_s)) {
        tests::add_squeak(scene.sound, rate, Seconds(at + 0.12), -40, seed++);
    }
    expect_all(scene.heard());
}

TEST_CASE("few squeaks in silence are taken for notes") {
    auto scene = scene_of(singles(0.15), 7);
    std::uint64_t seed = 1;
    for (const double at : std::vector<double>(scene.struck_s)) {
        tests::add_squeak(scene.sound, rate, Seconds(at + 0.22), -40, seed++);
    }
    const auto figures = scene.heard();
    CHECK(figures.found == figures.wanted);
    CHECK(figures.extra <= 0.1 * figures.wanted);
}

TEST_CASE("the same onsets are heard in blocks of any size, each within 30 ms") {
    const auto scene = scene_of(singles(0.3), 5);
    const auto all = tests::onsets_of(scene.sound, rate, 512);
    CHECK(tests::onsets_of(scene.sound, rate, 1) == all);
    CHECK(tests::onsets_of(scene.sound, rate, 1000000) == all);
    listen::SoundOnsets listener(rate);
    const auto longest = time::nearest_frame(listen::SoundOnsets::sure_after, rate);
    std::size_t count = 0;
    for (std::size_t at = 0; at < scene.sound.size(); at += 16) {
        const auto block = std::min<std::size_t>(16, scene.sound.size() - at);
        for (const auto& onset : listener.add({scene.sound.data() + at, block})) {
            CHECK(listener.frames() - onset.at <= longest);
            ++count;
        }
    }
    CHECK(count == all.size());
}

TEST_CASE("notes are heard alike at other sample rates") {
    for (const int hz : {44100, 96000}) {
        const auto plucks = singles(0.25);
        const SampleRate other(hz);
        const auto sound = tests::plucked(plucks, other, plucks.back().at + Seconds(0.6), 7);
        std::vector<double> struck;
        for (const auto& pluck : plucks) struck.push_back(pluck.at.count());
        CAPTURE(hz);
        expect_all(
            tests::figures_of(struck, tests::seconds_of(tests::onsets_of(sound, other), other)));
    }
}

TEST_CASE("how loud a note was struck is given with it") {
    auto plucks = singles(0.25);
    for (std::size_t i = 0; i < plucks.size(); ++i)
        plucks[i].level_db = -6 - 4 * static_cast<int>(i % 5);
    const auto onsets = tests::onsets_of(scene_of(plucks, 3).sound, rate);
    REQUIRE(onsets.size() == plucks.size());
    for (std::size_t i = 0; i < onsets.size(); ++i) {
        CHECK(onsets[i].level_db == Approx(plucks[i].level_db).margin(1));
    }
}

TEST_CASE("what is too soft, or comes too soon after another, is left out as it is set") {
    const auto scene = scene_of(singles(0.25), 7);
    listen::AttackSettings settings;
    settings.softest_db = -20;
    const auto hard = listen::SoundOnsets(rate, settings).add(scene.sound);
    CHECK(hard.size() == scene.struck_s.size() / 2);
    settings = {};
    settings.dead_time = Seconds(0.6);
    const auto far_apart = listen::SoundOnsets(rate, settings).add(scene.sound);
    REQUIRE(far_apart.size() > 10);
    CHECK(far_apart.size() < scene.struck_s.size());
    for (std::size_t i = 1; i < far_apart.size(); ++i) {
        CHECK((far_apart[i].at - far_apart[i - 1].at).count() >= 28800);
    }
}

TEST_CASE("every strum of the band's guitar is heard on its frame") {
    for (const double bpm : {100.0, 180.0}) expect_all(band_guitar(bpm).heard());
}

// Steps of a third of a millisecond, so that the program's own grid does not show; so set it names
// our onsets 1.3 ms late. What it hears besides are strings of a strum.
TEST_CASE("aubioonset and ours hear a guitar alike within 1 ms, but for a constant bias") {
    if (!tests::outside_tool("aubioonset")) return;
    const tests::TemporaryFolder folder;
    const auto file = folder.file("guitar.wav");
    for (const auto& scene : {scene_of(singles(5), 7), strums(30, 0.3), band_guitar(180)}) {
        sound::WavFormat format;
        format.existing = files::Existing::replace;
        sound::WavWriter writer(file, rate, format);
        writer.write(scene.sound.data(), scene.sound.data(), scene.sound.size());
        writer.commit();
        const auto theirs = tests::aubio_onsets(file, "-H 16 -t 0.5 -M 0.06");
        const auto ours = tests::seconds_of(tests::onsets_of(scene.sound, rate), rate);
        const auto figures = tests::figures_of(ours, theirs);
        CAPTURE(figures.wanted, figures.found, figures.extra, figures.bias_ms);
        CHECK(figures.found >= 0.95 * figures.wanted);
        CHECK(figures.extra <= 0.5 * figures.wanted);
        CHECK(figures.within_ms_share >= 0.95);
        CHECK(figures.bias_ms > 0.8);
        CHECK(figures.bias_ms < 1.8);
    }
}
