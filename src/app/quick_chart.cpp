#include "quick_chart.hpp"

#include "option.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/harmony/quality.hpp>
#include <compline/text/printable.hpp>
#include <compline/yaml/in_quotes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::app {

namespace {

constexpr double begins_at = 120;

/// The problem where the player typed it.
[[noreturn]] void refuse(const chart::ChartError& error, int line, int column) {
    const auto& problem = error.problems().front();
    const auto place = problem.line == line && problem.column > column
                           ? fmt::format("--changes: character {}", problem.column - column)
                           : std::string("--changes");
    throw BadInput(fmt::format("{}: {}", place, problem.what));
}

/// No dominant, nor a chord that leads somewhere else.
bool can_be_tonic(const harmony::Chord& chord) {
    if (harmony::is_dominant(chord) || harmony::is_suspended(chord)) return false;
    const auto& degrees = harmony::chord_tones(chord);
    return std::find(degrees.begin(), degrees.end(), harmony::Degree{5, 0}) != degrees.end();
}

chart::Key key_of(const chart::Form& form) {
    const harmony::Chord* tonic = nullptr;
    for (const auto& span : form.spans) {
        if (!span.chord) continue;
        if (tonic == nullptr || can_be_tonic(*span.chord)) tonic = &*span.chord;
    }
    if (tonic == nullptr) return {};
    const chart::Key written{{harmony::Letter::C, 0}, harmony::is_minor(*tonic)};
    const int higher = tonic->root.pitch_class() - written.tonic.pitch_class();
    return chart::key_apart(written, higher);
}

}  // namespace

chart::Chart chart_of_changes(const std::string& changes) {
    constexpr int line = 5;
    const std::string before = "  A: \"";
    const auto text = "title: T\nkey: C\ntempo: 120\nsections:\n  A: " + yaml::in_quotes(changes);
    chart::Chart chart;
    try {
        chart = chart::read_chart(text + "\n", "--changes");
    } catch (const chart::ChartError& error) {
        refuse(error, line, static_cast<int>(before.size()));
    }
    chart.title = text::printable(changes);
    chart.key = key_of(chart::unroll(chart));
    return chart;
}

std::string chart_to_begin_with(const NewChart& wanted) {
    constexpr int bars_a_line = 4;
    const auto tonic = wanted.key.tonic.name(harmony::Accidentals::letters);
    const auto symbol = tonic + (wanted.key.minor ? "m6" : "6");
    const auto written = wanted.meter.written();
    auto text = fmt::format(
        "# A name for each section, and its bars between bar lines. A bar is one chord, chords of "
        "equal\n"
        "# length, or a sign for each beat, \"/\" for the one before; \"%\" is the bar before.\n"
        "title: {}\nkey: {}\nmeter: {}/{}\ntempo: {:g}\nsections:\n  A: |",
        yaml::in_quotes(wanted.title), wanted.key.name(harmony::Accidentals::letters),
        written.above, written.below, begins_at);
    for (int bar = 0; bar < wanted.bars; ++bar) {
        text += (bar % bars_a_line == 0 ? "\n    " : " | ") + symbol;
    }
    return text + "\n";
}

}  // namespace compline::app
