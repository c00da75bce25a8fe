#include "benches.hpp"

#include <compline/chart/chart.hpp>
#include <compline/midi/smf.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace compline::bench {

namespace {

std::string aaba_text() {
    std::ifstream file(COMPLINE_CHARTS "/three-lamps-on-weir-lane.yaml");
    return {std::istreambuf_iterator<char>(file), {}};
}

/// As many bars as a chart may have, all written out.
std::string longest_text() {
    constexpr std::array<const char*, 4> line = {"Ebmaj7", "Cm7", "Fm7 Bb7", "Eb6 / / Bb7#5"};
    std::string text = "title: Long\nkey: Eb\nmeter: 4/4\ntempo: 160\nform: [A]\nsections:\n  A: |";
    for (std::size_t bar = 0; bar < chart::most_bars; ++bar) {
        text += bar % line.size() == 0 ? "\n    " : " | ";
        text += line[bar % line.size()];
    }
    return text + "\n";
}

/// An hour of notes and bends on six channels.
std::vector<std::uint8_t> long_file() {
    midi::File file;
    file.tracks.emplace_back();
    for (int i = 0; i < 100'000; ++i) {
        const int channel = 1 + i % 6;
        const std::int64_t tick = std::int64_t{i} * 70;
        file.tracks[0].add(tick, midi::note_on(channel, 40 + i % 48, 80));
        file.tracks[0].add(tick + 20, midi::pitch_bend(channel, i % 1000));
        file.tracks[0].add(tick + 60, midi::note_off(channel, 40 + i % 48));
    }
    return midi::write_smf(file);
}

std::string megabytes_a_second(std::size_t bytes, time::Seconds took) {
    return fmt::format("{:.1f} MB/s", static_cast<double>(bytes) / took.count() / 1e6);
}

std::vector<Row> charts(Pace pace, const std::string& what, const std::string& text) {
    const auto read = measure(pace, [&] { keep(chart::read_chart(text, "chart")); });
    const auto chart = chart::read_chart(text, "chart");
    const auto unrolled = measure(pace, [&] { keep(chart::unroll(chart)); });
    return {{fmt::format("reading a chart of {} bars", what), read,
             fmt::format("{:.0f} charts/s, {}", 1 / read.fastest().count(),
                         megabytes_a_second(text.size(), read.fastest()))},
            {"  unrolling it", unrolled, ""}};
}

std::vector<Row> midi_files(Pace pace) {
    const auto bytes = long_file();
    const auto took = measure(pace, [&] { keep(midi::read_smf(bytes)); });
    const auto file = midi::read_smf(bytes).file;
    const auto wrote = measure(pace, [&] { keep(midi::write_smf(file)); });
    const auto what =
        fmt::format("{:.1f} MB of MIDI file", static_cast<double>(bytes.size()) / 1e6);
    return {{"reading " + what, took, megabytes_a_second(bytes.size(), took.fastest())},
            {"writing " + what, wrote, megabytes_a_second(bytes.size(), wrote.fastest())}};
}

}  // namespace

std::vector<chart::Form> demo_forms() {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(COMPLINE_CHARTS)) {
        if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    std::vector<chart::Form> forms;
    forms.reserve(files.size());
    for (const auto& file : files) forms.push_back(chart::unroll(chart::load_chart(file)));
    return forms;
}

chart::Form aaba() { return chart::unroll(chart::read_chart(aaba_text(), "three lamps")); }

std::vector<Row> reading(Pace pace) {
    auto rows = charts(pace, "32", aaba_text());
    for (auto& row : charts(pace, "2,000", longest_text())) rows.push_back(std::move(row));
    for (auto& row : midi_files(pace)) rows.push_back(std::move(row));
    return rows;
}

}  // namespace compline::bench
