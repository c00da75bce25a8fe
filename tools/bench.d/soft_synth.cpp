#include "benches.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <string>

namespace compline::bench {

namespace {

namespace fs = std::filesystem;

/// 100 bars of the 32-bar chart at 80 bpm last five minutes.
constexpr const char* five_minutes = "--times 3 --tempo 77 --count-in 1";

bool runs(const std::string& command) {
    return std::system((command + " >/dev/null 2>&1").c_str()) == 0;
}

}  // namespace

std::vector<Row> soft_synth(Pace pace) {
    const fs::path soundfont = COMPLINE_SOUNDFONT;
    if (!fs::exists(soundfont) || !runs("command -v fluidsynth")) return {};
    const auto folder = fs::temp_directory_path();
    const auto midi = (folder / "compline_bench.mid").string();
    const auto ours = (folder / "compline_bench_ours.wav").string();
    const auto theirs = (folder / "compline_bench_theirs.wav").string();
    const auto render = [&](const std::string& out) {
        return fmt::format("{} render {}/three-lamps-on-weir-lane.yaml {} {} --replace",
                           COMPLINE_PROGRAM, COMPLINE_CHARTS, out, five_minutes);
    };
    if (!runs(render(midi))) return {};
    // The same format as the synthesizer's own, and each as a player starts it.
    const auto compline =
        measure(pace, [&] { (void)runs(render(ours) + " --rate 44100 --bits 16"); });
    const auto synth = measure(pace, [&] {
        (void)runs(fmt::format("fluidsynth -ni -F {} {} {}", theirs, soundfont.string(), midi));
    });
    for (const auto& file : {midi, ours, theirs}) fs::remove(file);
    return {
        {"five minutes of band to WAV (16 bits, 44.1 kHz), from the command line", compline, ""},
        {"  fluidsynth -F on our MIDI file of it (TimGM6mb)", synth,
         fmt::format("{:.1f} times as long", synth.fastest() / compline.fastest())}};
}

}  // namespace compline::bench
