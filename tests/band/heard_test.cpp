#include "support/aubio.hpp"
#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/forms.hpp"
#include "support/temporary_folder.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

// The band as others hear it: aubio (Debian's aubio-tools) listens to the rendered files.

using namespace compline;
using time::Bpm;
using time::Frames;
using time::Meter;
using time::SampleRate;

namespace {

const SampleRate rate(48000);

/// When something is struck: hi-hat and kick fall on ride strokes, so these are the strokes of the
/// ride, after the clicks of the count-in.
std::vector<double> struck_at(const std::vector<sound::Cue>& cues, Frames first) {
    std::set<std::int64_t> frames;
    for (const auto& cue : cues) frames.insert((cue.at - first).count());
    std::vector<double> seconds;
    for (const auto frame : frames) seconds.push_back(static_cast<double>(frame) / rate.hz());
    return seconds;
}

/// The program's middle pitch estimate in MIDI notes. Its first windows, 8192 frames long, reach
/// back before the sound; from here on they hold nothing else.
double heard_pitch(const std::string& output) {
    std::istringstream lines(output);
    std::vector<double> pitches;
    double pitch = 0;
    for (double at = 0; lines >> at >> pitch;) {
        if (at > 0.2) pitches.push_back(pitch);
    }
    if (pitches.empty()) return 0;
    std::sort(pitches.begin(), pitches.end());
    return pitches[pitches.size() / 2];
}

/// `minutes` of drums alone, the ride on each beat and skip.
struct Drums {
    std::vector<sound::Cue> cues;

    Drums(Meter meter, Bpm bpm, double minutes) {
        const int bars = static_cast<int>(std::ceil(bpm.count() * minutes / meter.beats()));
        const auto form = tests::make_form(
            meter, bpm, std::vector<std::string>(static_cast<std::size_t>(bars), "F7"));
        auto booking = tests::Booking::of(form.whole(), 1);
        booking.asked.manner.drums = chart::Drums::ride;
        auto part = booking.play(form);
        part.notes.clear();
        cues = band::place(part, booking.map(form), rate, Frames(0));
    }
};

void expect_every_stroke_heard(const Drums& drums) {
    const sound::Bank bank(rate);
    const tests::TemporaryFolder folder;
    // A tenth of a second of silence first: an onset in the very first window is not looked for.
    const Frames first = drums.cues.front().at - Frames(4800);
    const auto file = folder.file("drums.wav");
    sound::render_wav(drums.cues, bank, {first, sound::end_of(drums.cues, bank, first)}, file);

    const auto heard = tests::aubio_onsets(file);
    const auto struck = struck_at(drums.cues, first);
    CAPTURE(heard, struck);
    REQUIRE(heard.size() == struck.size());
    for (std::size_t i = 0; i < heard.size(); ++i) {
        CHECK(std::fabs(heard[i] - struck[i]) <= 0.005);
    }
}

void expect_bass_in_tune(SampleRate at) {
    const sound::Bank bank(at);
    const tests::TemporaryFolder folder;
    const auto file = folder.file("bass.wav");
    sound::WavFormat format;
    format.existing = files::Existing::replace;
    for (int note = 28; note <= 55; ++note) {
        const sound::Cue cue{Frames(0), sound::Cue::never, sound::bass(harmony::MidiNote(note))};
        const auto length = time::nearest_frame(time::Seconds(0.45), at);
        sound::render_wav({cue}, bank, {Frames(0), length}, file, format);
        const auto result = tests::run("aubiopitch -p yin -B 8192 -H 512 -u midi " +
                                       tests::shell_quote(file.string()));
        CAPTURE(note, at.hz());
        CHECK(std::fabs(heard_pitch(result.output) - note) <= 0.03);
    }
}

}  // namespace

TEST_CASE("aubioonset finds every ride stroke of the drums within 5 ms and none extra") {
    if (!tests::outside_tool("aubioonset")) return;
    expect_every_stroke_heard({Meter(4), Bpm(60), 0.5});
    expect_every_stroke_heard({Meter(4), Bpm(132), 0.5});
    expect_every_stroke_heard({Meter(3), Bpm(150), 0.5});
}

TEST_CASE("aubioonset finds every ride stroke of a minute of drums, slow and fast") {
    if (!tests::outside_tool("aubioonset")) return;
    for (const double bpm : {100.0, 160.0, 240.0}) {
        CAPTURE(bpm);
        expect_every_stroke_heard({Meter(4), Bpm(bpm), 1.0});
    }
}

// By ISO 16: A4 is 440 Hz.
TEST_CASE("aubiopitch hears every bass note in tune within 3 cents at 48 kHz") {
    if (!tests::outside_tool("aubiopitch")) return;
    expect_bass_in_tune(SampleRate(48000));
}

TEST_CASE("aubiopitch hears every bass note in tune within 3 cents at 44.1 kHz") {
    if (!tests::outside_tool("aubiopitch")) return;
    expect_bass_in_tune(SampleRate(44100));
}
