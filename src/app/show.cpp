#include "command.hpp"

#include <compline/chart/summary.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/tones.hpp>

#include <fmt/format.h>

#include <memory>
#include <vector>

namespace compline::app {

namespace {

struct ShowOptions {
    std::string chart;
    std::string bars;
    std::vector<std::string> tones;
};

harmony::Chord read_symbol(const std::string& symbol) {
    try {
        return harmony::read_chord(symbol);
    } catch (const harmony::ChordError& error) {
        throw BadInput(fmt::format("--tones {}: {}", symbol, error.what()));
    }
}

/// The form as a lead sheet has it, with the number of each row's first bar.
std::string chart_text(const chart::Form& form, chart::Passage passage) {
    const int digits = static_cast<int>(std::to_string(passage.to).size());
    const auto rows =
        report::chart_rows(form, passage, report::widest_rows - std::max(digits, 2) - 1);
    std::string text = printable(chart::summary(form)) + "\n\n";
    for (const auto& row : rows.rows) {
        text += fmt::format("{:>{}} {}\n", row.bars.front().number, std::max(digits, 2),
                            printable(row.text()));
    }
    return text;
}

void show(const ShowOptions& options) {
    if (options.chart.empty() && options.tones.empty()) {
        throw BadInput(
            "show needs a chart, or --tones with a chord symbol such as C7alt\n"
            "See compline show --help.");
    }
    if (options.chart.empty() && !options.bars.empty()) {
        throw BadInput("--bars names bars of a chart, and no chart was given");
    }
    // Everything is read before anything is shown.
    std::string text;
    if (!options.chart.empty()) {
        const auto form = load_form(options.chart);
        text = chart_text(form, read_bars(form, options.bars).value_or(form.whole()));
    }
    for (const auto& symbol : options.tones) {
        text += (text.empty() ? "" : "\n") + report::tones_text(read_symbol(symbol));
    }
    fmt::print("{}", text);
}

}  // namespace

Command show_command() {
    const auto options = std::make_shared<ShowOptions>();
    return {
        "show",
        "Show a chart, or what may be played on a chord and what must",
        {{"CHART", "", "Chart file", &options->chart},
         {"--bars", "BARS", "What to show: 9-12, or B:1-4 in the first B. Default: the whole form",
          &options->bars},
         {"--tones", "SYMBOL", "The tones of a chord: written, defining, accepted; once or more",
          &options->tones}},
        [options] {
            show(*options);
            return Status::done;
        }};
}

}  // namespace compline::app
