#include "suggestion.hpp"

#include "words.hpp"

#include <compline/report/practice_command.hpp>
#include <compline/report/weakest.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::report {

namespace {

/// The ladder again, from a tempo on that went well; else the tempo that was played last, where it
/// is not the chart's own.
std::string tempo_words(const practice::Report& report) {
    if (const auto& ladder = report.ladder) {
        return fmt::format("--ladder {}-{}", plain(ladder->next_start().count()),
                           plain(ladder->asked.to.count()));
    }
    const auto& map = report.map;
    return tempo_piece(map.bar(*map.bars()).tune_tempo, map.form().chart);
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

std::string command(const practice::Report& report) {
    const auto loop = loop_of(report);
    const auto key = loop.key.empty() ? "" : "--key " + shell_word(loop.key, "KEY");
    return practice_command(
        report.chart_file,
        {fmt::format("--bars {}-{}", loop.bars.from, loop.bars.to), key, tempo_words(report)},
        report.kept);
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
