#include "accidentals.hpp"
#include "command.hpp"
#include "key_wish.hpp"
#include "paper.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/summary.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/chart/write_chart.hpp>
#include <compline/files/file_io.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/lead_sheet.hpp>
#include <compline/report/tones.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace compline::app {

namespace {

/// A horn that is written for in another key than it sounds in.
struct Horn {
    harmony::Spelling plays;  ///< what sounds where C is written
    int higher;               ///< semitones that its part is written above what sounds, or below
};
constexpr std::array<Horn, 3> horns = {
    {{{harmony::Letter::B, -1}, 2}, {{harmony::Letter::E, -1}, -3}, {{harmony::Letter::F, 0}, 7}}};

struct ShowOptions {
    std::string chart;
    std::string bars;
    KeyWish key;
    std::optional<Horn> horn;
    int capo = 0;
    std::vector<std::string> tones;
    bool as_chart = false;
    std::string html;
    std::optional<report::Paper> paper;
    report::Paper usual_paper = report::Paper::a4;
    bool replace = false;
};

harmony::Chord read_symbol(const std::string& symbol) {
    return read_option("--tones " + text::printable(symbol), symbol, Echo::name,
                       [](const auto& text) { return harmony::read_chord(text); });
}

Horn read_horn(const std::string& text) {
    std::size_t length = 0;
    const auto plays = harmony::read_spelling(text, length);
    const auto* const horn = std::find_if(horns.begin(), horns.end(), [&](const Horn& known) {
        return length == text.size() && plays == known.plays;
    });
    if (horn != horns.end()) return *horn;
    throw BadInput(fmt::format("{} is none of the keys that horns are in: write Bb, Eb or F",
                               text::quoted(text)));
}

/// Bars as they are played, row by row, with the number of each row's first bar; with a capo, the
/// shapes below the chords.
std::string rows_text(const chart::Form& form, chart::Passage passage, const chart::Form* shapes) {
    const int digits = std::max(static_cast<int>(std::to_string(passage.to).size()), 2);
    const int columns = report::widest_rows - digits - 1;
    const auto rows = report::chart_rows(form, passage, columns, shapes);
    const auto below = shapes != nullptr ? report::chart_rows(*shapes, passage, columns, &form)
                                         : report::ChartRows{};
    std::string text;
    for (std::size_t i = 0; i < rows.rows.size(); ++i) {
        const auto& row = rows.rows[i];
        text += fmt::format("{:>{}} {}\n", row.bars.front().number, digits,
                            text::printable_lines(row.text()));
        if (shapes == nullptr) continue;
        text += std::string(static_cast<std::size_t>(digits) + 1, ' ') +
                text::printable_lines(below.rows[i].text_alone()) + "\n";
    }
    return text;
}

/// From what is written, whatever the chart was put into on the way: so names stay good.
chart::Form in_key(const chart::Chart& written, const chart::Key& key) {
    return chart::unroll(chart::transposed(written, key, chart::highest_fret).chart);
}

/// The chart as it is to be shown, the words for its key, and what a capo makes of it.
struct ShownChart {
    chart::Form form;
    std::string key;
    std::optional<chart::Form> shapes;
};

ShownChart shown_chart(const ShowOptions& options) {
    const auto written = load_form(options.chart).chart;
    ShownChart shown;
    shown.form = chart::unroll(in_key(written, options.key, chart::highest_fret).chart);
    const auto sounding = shown.form.chart.key;
    shown.key = chart::key_in_words(shown.form.chart);
    if (options.capo > 0) {
        shown.shapes = in_key(written, chart::key_apart(sounding, -options.capo));
    }
    if (!options.horn) return shown;
    shown.form = in_key(written, chart::key_apart(sounding, options.horn->higher));
    shown.key = fmt::format("{}, for a horn in {} (sounds in {})", shown.form.chart.key.name(),
                            options.horn->plays.name(), sounding.name());
    return shown;
}

std::string lead_sheet_text(const ShownChart& shown) {
    const auto* const shapes = shown.shapes ? &*shown.shapes : nullptr;
    std::string text;
    for (const auto& line : report::lead_sheet(shown.form, report::widest_rows, shapes)) {
        text += text::printable_lines(line) + "\n";
    }
    return text;
}

/// As a lead sheet; bars that are named as they are played, row by row.
std::string chart_text(const ShownChart& shown, const ShowOptions& options) {
    const auto& form = shown.form;
    const auto passage = read_bars(form, options.bars);
    auto text = text::printable_lines(chart::summary(form, shown.key)) + "\n";
    if (shown.shapes) {
        text += fmt::format("capo {}: the shapes, below the chords, are in {}\n", options.capo,
                            shown.shapes->chart.key.name());
    }
    if (!passage) return text + "\n" + lead_sheet_text(shown);
    return text + "\n" + rows_text(form, *passage, shown.shapes ? &*shown.shapes : nullptr);
}

void save_page(const ShowOptions& options, const ShownChart& shown) {
    const auto paper = options.paper.value_or(options.usual_paper);
    files::save_text(options.html, report::lead_sheet_html(shown.form, paper),
                     options.replace ? files::Existing::replace : files::Existing::keep);
    fmt::print("{}: a lead sheet of {}\n", files::name_of(options.html),
               text::printable(shown.form.chart.title, std::string::npos));
}

/// All that is said of a chart on stdout.
std::string said_of_chart(const ShowOptions& options) {
    const auto shown = shown_chart(options);
    if (!options.html.empty()) {
        save_page(options, shown);
        return "";
    }
    return options.as_chart ? chart::write_chart(shown.form.chart) : chart_text(shown, options);
}

/// What makes sense of a chart alone, and of one reader of it.
void refuse_nonsense(const ShowOptions& options) {
    if (options.chart.empty() && !options.bars.empty()) {
        throw BadInput("--bars names bars of a chart, and no chart was given");
    }
    const bool other = options.key.asked() || options.horn || options.capo > 0;
    if (options.chart.empty() && other) {
        throw BadInput(
            "--key, --transpose, --for and --capo are about a chart, and no chart was given");
    }
    const bool rewritten = options.as_chart || !options.html.empty();
    if (rewritten && (options.chart.empty() || options.capo > 0 || !options.bars.empty() ||
                      !options.tones.empty())) {
        throw BadInput(
            "--as-chart and --html are of a whole chart: leave out --bars, --capo and --tones");
    }
    if (options.as_chart && !options.html.empty()) {
        throw BadInput("--as-chart and --html are two ways to show it: leave out one of them");
    }
    if (options.paper && options.html.empty()) {
        throw BadInput("--paper is for a page: give --html too");
    }
    if (options.horn && options.capo > 0) {
        throw BadInput("--for makes a horn's copy, --capo a guitarist's: leave out one of them");
    }
}

void show(const ShowOptions& options) {
    if (options.chart.empty() && options.tones.empty()) {
        throw BadInput(
            "show needs a chart, or --tones with a chord symbol such as C7alt\n"
            "See compline show --help.");
    }
    refuse_nonsense(options);
    // Everything is read before anything is shown.
    std::string text;
    if (!options.chart.empty()) text = said_of_chart(options);
    for (const auto& symbol : options.tones) {
        text += (text.empty() ? "" : "\n") + report::tones_text(read_symbol(symbol));
    }
    if (options.as_chart) {
        fmt::print("{}", text);
    } else {
        print_words(text);
    }
}

}  // namespace

ProgramCommand show_command() {
    const auto options = std::make_shared<ShowOptions>();
    const std::vector<Option> what = {
        {"CHART", "", "Chart file", "", file_name(&options->chart)},
        {"--bars", "BARS", "What to show: 9-12, or B:1-4 in the first B.", "the whole form",
         as_typed(&options->bars)}};
    const std::vector<Option> readers = {
        {"--for", "KEY", "A copy for a horn in Bb, Eb or F, as it is written for it.",
         "as it sounds", read_by([options](const auto& text) { options->horn = read_horn(text); })},
        {"--capo", "FRET",
         "The fret of a capo, 1 to 11: the shapes that you think of stand below the chords.",
         "none", whole_number(1, guitar::highest_capo, &options->capo)},
        {"--as-chart", "", "The chart as a chart file, in the key that is asked for.",
         "as a lead sheet", flag(&options->as_chart)},
        {"--html", "FILE",
         "Write the lead sheet as a page for the stand: a staff with slashes, the chords\n"
         "above it.",
         "no file", file_name(&options->html)},
        paper_option(options->paper, options->usual_paper),
        {"--replace", "", "Write over a file that is there.", "it is kept",
         flag(&options->replace)},
        {"--tones", "SYMBOL", "The tones of a chord: written, defining, accepted; once or more", "",
         all_as_typed(&options->tones)},
        accidentals_option()};
    return {"show", "Show a chart, or what may be played on a chord and what must",
            joined({what, options_of(options->key), readers}), [options] {
                show(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
