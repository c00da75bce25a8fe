#include "benches.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <string>

namespace compline::bench {

namespace {

/// All names of tonal's table on its seventeen roots that we read too.
std::vector<std::string> common_symbols() {
    std::ifstream file(COMPLINE_TONAL_CHORDS);
    std::vector<std::string> symbols;
    const auto table = nlohmann::json::parse(file);
    for (const auto& type : table["types"]) {
        for (const std::string name : type["names"]) {
            for (const auto& [root, notes] : type["notes"].items()) {
                try {
                    keep(harmony::read_chord(root + name));
                    symbols.push_back(root + name);
                } catch (const text::BadInput&) {
                    continue;
                }
            }
        }
    }
    return symbols;
}

std::string rate(std::size_t symbols, const Measurement& took) {
    const double each = took.fastest().count() / static_cast<double>(symbols);
    return fmt::format("{:.2f} million/s, {:.0f} ns each", 1e-6 / each, each * 1e9);
}

struct ClosePipe {
    void operator()(std::FILE* pipe) const { pclose(pipe); }
};

/// tonal in Node on the same symbols: the seconds of each run.
Measurement tonal(Pace pace, const std::string& script, const std::vector<std::string>& symbols) {
    const auto list = std::filesystem::temp_directory_path() / "compline-bench-symbols.txt";
    std::ofstream out(list);
    for (const auto& symbol : symbols) out << symbol << "\n";
    out.close();
    const auto command =
        fmt::format("node '{}' '{}' {}", script, list.string(), pace == Pace::quick ? 3 : 20);
    std::vector<double> seconds;
    {
        const std::unique_ptr<std::FILE, ClosePipe> pipe(popen(command.c_str(), "r"));
        double run = 0;
        while (pipe && std::fscanf(pipe.get(), "%lf", &run) == 1) seconds.push_back(run);
    }
    std::filesystem::remove(list);
    if (seconds.empty()) throw std::runtime_error("tonal in Node gave no figures: " + command);
    return Measurement(seconds);
}

}  // namespace

std::vector<Row> symbols(Pace pace) {
    const auto all = common_symbols();
    const auto ours = measure(pace, [&] {
        for (const auto& symbol : all) keep(harmony::read_chord(symbol));
    });
    // The library beside it gives notes with each chord; so here are ours with notes.
    const auto with_notes = measure(pace, [&] {
        for (const auto& symbol : all) {
            const auto chord = harmony::read_chord(symbol);
            for (const auto& degree : harmony::chord_tones(chord)) {
                keep(harmony::spell(chord.root, degree));
            }
        }
    });
    std::vector<Row> rows = {
        {fmt::format("reading {} chord symbols", all.size()), ours, rate(all.size(), ours)},
        {"  and spelling their notes", with_notes, rate(all.size(), with_notes)}};
    if (const char* const script = std::getenv("COMPLINE_TONAL_RATE")) {
        const auto theirs = tonal(pace, script, all);
        rows.push_back({"  both by tonal in Node", theirs, rate(all.size(), theirs)});
    }
    return rows;
}

}  // namespace compline::bench
