#include "command.hpp"

#include <compline/chart/summary.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/tones.hpp>
#include <compline/text/printable.hpp>

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
    return read_option("--tones " + text::printable(symbol), symbol, Echo::name,
                       [](const auto& text) { return harmony::read_chord(text); });
}

/// The form as a lead sheet has it, with the number of each row's first bar.
std::string chart_text(const chart::Form& form, chart::Passage passage) {
    const int digits = static_cast<int>(std::to_string(passage.to).size());
    const auto rows =
        report::chart_rows(form, passage, report::widest_rows - std::max(digits, 2) - 1);
    std::string text = text::printable_lines(chart::summary(form)) + "\n\n";
    for (const auto& row : rows.rows) {
        text += fmt::format("{:>{}} {}\n", row.bars.front().number, std::max(digits, 2),
                            text::printable_lines(row.text()));
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

ProgramCommand show_command() {
    const auto options = std::make_shared<ShowOptions>();
    return {
        "show",
        "Show a chart, or what may be played on a chord and what must",
        {{"CHART", "", "Chart file", "", file_name(&options->chart)},
         {"--bars", "BARS", "What to show: 9-12, or B:1-4 in the first B.", "the whole form",
          as_typed(&options->bars)},
         {"--tones", "SYMBOL", "The tones of a chord: written, defining, accepted; once or more",
          "", all_as_typed(&options->tones)}},
        [options] {
            show(*options);
            return Status::done;
        }};
}

}  // namespace compline::app
