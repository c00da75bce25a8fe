#include "suggestion.hpp"

#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/weakest.hpp>
#include <compline/text/for_shell.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::report {

namespace {

constexpr const char* indent = "         ";

/// What would steer the terminal is left to the reader to put in.
std::string for_shell(const std::string& word, const char* instead) {
    return text::has_control_characters(word) ? instead : text::for_shell(word);
}

/// The ladder again, from a tempo on that went well; else the tempo that was played last, where it
/// is not the chart's own.
std::string tempo_option(const practice::Report& report) {
    if (const auto& ladder = report.ladder) {
        return fmt::format("--ladder {}-{}", plain(ladder->next_start().count()),
                           plain(ladder->asked.to.count()));
    }
    const auto& map = report.map;
    const auto last = map.bar(*map.bars()).tune_tempo;
    return last == map.form().chart.tempo ? "" : "--tempo " + plain(last.count());
}

/// Where the passage went through the keys, its own bars and the key of these.
struct BarsToLoop {
    chart::Passage bars;
    std::string key;  ///< empty: as the chart has it
};

BarsToLoop loop_of(const practice::Report& report) {
    const auto& loop = report.assessment.weakest->loop;
    const auto& form = report.map.form();
    constexpr auto letters = harmony::Accidentals::letters;
    if (const auto& whole = report.through_keys) {
        const int bars = whole->bars();
        const int first = (report.assessment.weakest->from_bar - 1) % bars;
        const int last = std::min(first + loop.bars(), bars) - 1;
        return {{whole->from + first, whole->from + last},
                form.bar(report.assessment.weakest->from_bar).key.name(letters)};
    }
    return {loop, form.chart.written_in ? form.chart.key.name(letters) : ""};
}

/// Breaks between options, as a shell lets it be pasted.
std::string command_lines(const std::vector<std::string>& pieces) {
    std::string text = indent + std::string("compline practice");
    int column = columns_of(text);
    for (const auto& piece : pieces) {
        constexpr int continued = 2;  // " \" at the end
        if (column + 1 + columns_of(piece) + continued > terminal_columns) {
            text += std::string(" \\\n") + indent + "   ";
            column = columns_of(indent) + 3;
        }
        text += " " + piece;
        column += 1 + columns_of(piece);
    }
    return text + "\n";
}

std::string command(const practice::Report& report) {
    const auto loop = loop_of(report);
    std::vector<std::string> pieces;
    if (!report.chart_file.empty()) pieces.push_back(for_shell(report.chart_file, "CHART"));
    pieces.push_back(fmt::format("--bars {}-{}", loop.bars.from, loop.bars.to));
    if (!loop.key.empty()) pieces.push_back("--key " + for_shell(loop.key, "KEY"));
    if (const auto tempo = tempo_option(report); !tempo.empty()) pieces.push_back(tempo);
    for (const auto& option : report.kept) {
        std::string piece = option.name;
        if (!option.value.empty()) piece += " " + for_shell(option.value, "...");
        pieces.push_back(piece);
    }
    return command_lines(pieces);
}

/// Changes that were typed need no chart.
bool has_own_changes(const practice::Report& report) {
    return std::any_of(
        report.kept.begin(), report.kept.end(),
        [](const practice::KeptOption& option) { return option.name == "--changes"; });
}

}  // namespace

std::string suggestion_text(const practice::Report& report) {
    const auto& weakest = report.assessment.weakest;
    if (!weakest) return "";
    auto text = fmt::format("\nWeakest  {}\n", weakest_words(report));
    if (report.chart_file.empty() && !has_own_changes(report)) return text;
    const bool run_in = weakest->loop.from < weakest->from_bar && !report.through_keys;
    const auto from = run_in ? fmt::format(", with bar {} to come from", weakest->loop.from) : "";
    return text + "         loop them" + from + ":\n" + command(report);
}

}  // namespace compline::report
