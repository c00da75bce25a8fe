#include "command.hpp"

#include "accidentals.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <utility>

namespace compline::app {

namespace {

/// All of the standard input, or a byte more than a chart may have.
std::string read_standard_input() {
    std::string bytes(chart::most_bytes + 1, '\0');
    bytes.resize(std::fread(bytes.data(), 1, bytes.size(), stdin));
    if (std::ferror(stdin) == 0) return bytes;
    throw chart::ChartError(spoken_name(standard_input), {{0, 0, "it cannot be read to its end"}});
}

}  // namespace

void say(std::string_view line) noexcept {
    try {
        say_as_is(as_shown(text::printable_lines(line)) + '\n');
    } catch (...) {
        say_as_is("out of memory\n");
    }
}

void say_as_is(std::string_view text) noexcept {
    (void)std::fwrite(text.data(), 1, text.size(), stderr);
    (void)std::fflush(stderr);
}

std::string spoken_name(const std::string& path) {
    return path == standard_input ? "standard input" : files::name_of(path);
}

ChartFile load_chart_file(const std::string& path) {
    auto text = path == standard_input ? read_standard_input() : chart::load_chart_text(path);
    auto form = chart::unroll(chart::read_chart(text, spoken_name(path)));
    for (const auto& section : chart::never_played(form.chart)) {
        say(fmt::format("{}: section {} is never played: name it in `form`, or delete it",
                        spoken_name(path), text::quoted(section)));
    }
    return {std::move(form), std::move(text)};
}

Option tempo_option(std::optional<double>& tempo, const std::string& meaning,
                    const std::string& usual) {
    return {"--tempo", "BPM", meaning, usual,
            number(chart::slowest_bpm, chart::fastest_bpm, &tempo)};
}

std::optional<chart::Passage> read_bars(const chart::Form& form, const std::string& text) {
    if (text.empty()) return std::nullopt;
    return read_option("--bars " + text::printable(text), text, Echo::name,
                       [&](const auto& bars) { return chart::read_passage(form, bars); });
}

}  // namespace compline::app
