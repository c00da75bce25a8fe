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

std::vector<double> seconds_in(const std::string& output) {
    std::istringstream lines(output);
    std::vector<double> seconds;
    for (double s = 0; lines >> s;) seconds.push_back(s);
    return seconds;
}

/// When something is struck: hi-hat and kick fall on ride strokes, so these are the strokes of the
/// ride, after the clicks of the count-in.
std::vector<double> struck_at(const std::vector<sound::Cue>& cues, Frames first) {
    std::set<std::int64_t> frames;
    for (const auto& cue : cues) frames.insert((cue.at - first).count());
    std::vector<double> seconds;
    for (const auto frame : frames) seconds.push_back(static_cast<double>(frame) / rate.hz());
    return seconds;
}

/// The program's middle pitch estimate in MIDI notes: its first windows hold the attack, its last
/// ones the fade.
double heard_pitch(const std::string& output) {
    std::istringstream lines(output);
    std::vector<double> pitches;
    double pitch = 0;
    for (double at = 0; lines >> at >> pitch;) {
        if (at > 0.25 && at < 0.9) pitches.push_back(pitch);
    }
    if (pitches.empty()) return 0;
    std::sort(pitches.begin(), pitches.end());
    return pitches[pitches.size() / 2];
}

}  // namespace

TEST_CASE("aubioonset finds every ride stroke of the drums within 5 ms and none extra") {
    if (!tests::outside_tool("aubioonset")) return;
    const sound::Bank bank(rate);
    const tests::TemporaryFolder folder;
    struct Take {
        int beats;
        double bpm;
    };
    for (const Take take : {Take{4, 60}, Take{4, 132}, Take{4, 240}, Take{3, 150}}) {
        const Meter meter(take.beats);
        const auto form = tests::make_form(meter, Bpm(take.bpm), std::vector<std::string>(8, "F7"));
        auto part = band::arrange(form, {form.whole(), 1, 2});
        part.notes.clear();
        const time::Groove groove{time::Timeline(Bpm(take.bpm)), time::Swing::at(Bpm(take.bpm))};
        const auto cues = band::place(part, groove, rate, Frames(0));
        // A tenth of a second of silence first: an onset in the very first window is not looked
        // for.
        const Frames first = cues.front().at - Frames(4800);
        const auto file = folder.file("drums.wav");
        sound::render_wav(cues, bank, {first, sound::end_of(cues, bank, first)}, file);

        // Short windows: with the default of 512 frames and hops of 256 the program names onsets
        // 4.5 ms early (SD 0.9), with these 0.6 ms late (SD 0.3), at 48 kHz. Threshold, silence
        // and shortest interval are its defaults, written out.
        const auto heard =
            seconds_in(tests::run("aubioonset -B 256 -H 64 -O hfc -t 0.3 -M 0.012 -s -90 " +
                                  tests::shell_quote(file.string()))
                           .output);
        const auto struck = struck_at(cues, first);
        CAPTURE(take.beats, take.bpm, heard, struck);
        REQUIRE(heard.size() == struck.size());
        for (std::size_t i = 0; i < heard.size(); ++i) {
            CHECK(std::fabs(heard[i] - struck[i]) <= 0.005);
        }
    }
}

TEST_CASE("aubiopitch hears the bass in tune by ISO 16 within 10 cents over its range") {
    if (!tests::outside_tool("aubiopitch")) return;
    const sound::Bank bank(rate);
    const tests::TemporaryFolder folder;
    for (const int note : {28, 30, 33, 36, 40, 45, 50, 55}) {
        const sound::Cue cue{Frames(0), sound::Cue::never, sound::bass(harmony::MidiNote(note))};
        const auto file = folder.file("bass.wav");
        sound::render_wav({cue}, bank, {Frames(0), Frames(72000)}, file);
        const auto result = tests::run("aubiopitch -p yin -B 8192 -H 512 -u midi " +
                                       tests::shell_quote(file.string()));
        CAPTURE(note);
        CHECK(std::fabs(heard_pitch(result.output) - note) <= 0.10);
    }
}
