#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/place.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using time::Bpm;
using time::Frames;
using time::Meter;
using time::SampleRate;

namespace {

band::Part band_for(Meter meter, int bars, int count_in) {
    const auto form = tests::make_form(
        meter, Bpm(120), std::vector<std::string>(static_cast<std::size_t>(bars), "F7"));
    return tests::Booking::of(form.whole(), 1, count_in).play(form);
}

/// The part's ride alone; with a bank whose first sound is a click of one sample, every stroke is
/// one sample in silence.
band::Part ride_of(band::Part part) {
    const auto other = [](const band::Stroke& s) { return s.drum != band::Drum::ride; };
    part.strokes.erase(std::remove_if(part.strokes.begin(), part.strokes.end(), other),
                       part.strokes.end());
    part.notes.clear();
    return part;
}

/// When a stroke is due, worked out here once more: whole beats stay, off-beats fall at r/(1+r).
double due(time::Ticks at, double bpm, double ratio) {
    const auto whole_beats = at.count() / 960;
    const double part = at.count() % 960 == 0 ? 0.0 : ratio / (1.0 + ratio);
    return (static_cast<double>(whole_beats) + part) * 60.0 / bpm;
}

std::vector<std::int64_t> sounding_frames(const sound::Stereo& sound, Frames first) {
    std::vector<std::int64_t> frames;
    for (std::size_t i = 0; i < sound.left.size(); ++i) {
        if (sound.left[i] != 0.0F) frames.push_back(first.count() + static_cast<std::int64_t>(i));
    }
    return frames;
}

}  // namespace

TEST_CASE("every stroke is heard on the frame nearest its exact time") {
    const auto part = ride_of(band_for(Meter(4), 16, 0));
    for (const int hz : {44100, 48000}) {
        const sound::Bank clicks(SampleRate(hz), {{1.0F}});
        for (const double bpm : {61.7, 132.0, 240.0, 400.0}) {
            for (const double ratio : {1.0, 1.5, 2.58, 3.0}) {
                const auto map = tests::time_alone(Bpm(bpm), ratio);
                const Frames zero(1000);
                const auto cues = band::place(part, map, clicks.rate(), zero);
                const sound::Excerpt excerpt{Frames(0), sound::end_of(cues, clicks, zero), 512};
                const auto heard = sounding_frames(sound::render(cues, clicks, excerpt), Frames(0));
                REQUIRE(heard.size() == part.strokes.size());
                for (std::size_t i = 0; i < heard.size(); ++i) {
                    const double exact = due(part.strokes[i].at, bpm, ratio) * hz + 1000;
                    CHECK(std::fabs(static_cast<double>(heard[i]) - exact) <= 0.5 + 1e-6);
                }
            }
        }
    }
}

TEST_CASE("strokes are on the same frames whatever the size of the blocks") {
    const sound::Bank clicks(SampleRate(48000), {{1.0F}});
    const auto map = tests::time_alone(Bpm(173.3), 2.1);
    const auto part = ride_of(band_for(Meter(3), 4, 0));
    const auto cues = band::place(part, map, clicks.rate(), Frames(0));
    for (const int block : {1, 37, 64, 4096}) {
        const sound::Excerpt excerpt{Frames(0), Frames(200000), block};
        const auto heard = sounding_frames(sound::render(cues, clicks, excerpt), Frames(0));
        REQUIRE(heard.size() == cues.size());
        for (std::size_t i = 0; i < heard.size(); ++i) CHECK(heard[i] == cues[i].at.count());
    }
}

TEST_CASE("an hour in, a stroke is as exact as the first") {
    band::Part part;
    part.strokes = {{time::quarter_note * 7919, band::Drum::ride, 90}};
    const auto map = tests::time_alone(Bpm(132), 2.5);
    const auto cues = band::place(part, map, SampleRate(48000), Frames(0));
    CHECK(cues[0].at.count() == std::llround(7919 * 60.0 / 132 * 48000));
}

TEST_CASE("the count-in comes before frame zero of bar 1, and cues are in order") {
    const auto part = band_for(Meter(4), 4, 2);
    const auto map = tests::time_alone(Bpm(120), 2);
    const auto cues = band::place(part, map, SampleRate(48000), Frames(0));
    CHECK(cues.size() == part.strokes.size() + part.notes.size());
    CHECK(cues.front().at == Frames(-8 * 24000));
    CHECK(std::is_sorted(cues.begin(), cues.end(),
                         [](const auto& a, const auto& b) { return a.at < b.at; }));
}

TEST_CASE("bass notes are damped before the next beat, drums ring") {
    const auto part = band_for(Meter(4), 2, 0);
    const auto map = tests::time_alone(Bpm(120), 2);
    for (const auto& cue : band::place(part, map, SampleRate(48000), Frames(0))) {
        if (cue.sound.index() <= sound::stick.index()) {
            CHECK(cue.stop == sound::Cue::never);
        } else {
            CHECK((cue.stop - cue.at).count() > 24000 * 8 / 10);
            CHECK((cue.stop - cue.at).count() < 24000);
        }
    }
}

TEST_CASE("the band can stand at one point, louder and softer") {
    const auto part = band_for(Meter(4), 1, 1);
    const auto map = tests::time_alone(Bpm(120), 2);
    const auto as_made = band::place(part, map, SampleRate(48000), Frames(0));
    band::Stage stage;
    stage.width = 0;
    stage.centre = -1;
    band::read_mix("drums=-6.0206,count=-6.0206,bass=off", stage);
    const auto left = band::place(part, map, SampleRate(48000), Frames(0), stage);
    REQUIRE(left.size() == as_made.size());
    for (std::size_t i = 0; i < left.size(); ++i) {
        const bool drum = left[i].sound.index() <= sound::stick.index();
        CHECK(left[i].pan == -1.0F);
        CHECK(left[i].gain == Approx(drum ? 0.5 * as_made[i].gain : 0.0).epsilon(1e-4));
    }
}

TEST_CASE(
    "a kick of the band is as loud at a slow tempo as at 170, the balance of the band as ever") {
    band::Part part;
    part.strokes = {{time::Ticks(0), band::Drum::snare, 82},
                    {time::Ticks(0), band::Drum::kick, 44}};
    part.notes = {{time::Ticks(0), time::quarter_note, harmony::MidiNote(40), 108}};
    const auto gains = [&](double bpm) {
        const auto map = tests::time_alone(Bpm(bpm), 2);
        std::vector<float> found;
        for (const auto& cue : band::place(part, map, SampleRate(48000), Frames(0))) {
            found.push_back(cue.gain);
        }
        return found;
    };
    const auto plain = gains(170);
    CHECK(gains(60)[0] > 1.2F * plain[0]);
    part.kicks = {time::Ticks(0)};
    CHECK(gains(170) == plain);
    CHECK(gains(60) == plain);
    CHECK(gains(30) == plain);
    CHECK(gains(300)[2] < plain[2]);
}
