#include "suggestion.hpp"

#include "words.hpp"

#include <compline/report/practice_command.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::report {

namespace {

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
    const auto last = report.map.bar(*report.map.bars()).tune_tempo;
    return practice_command(report.chart_file,
                            {fmt::format("--bars {}-{}", loop.bars.from, loop.bars.to), key,
                             tempo_piece(last, report.map.form().chart)},
                            report.kept);
}

/// Changes that were typed need no chart.
bool has_own_changes(const practice::Report& report) {
    return std::any_of(
        report.kept.begin(), report.kept.end(),
        [](const practice::KeptOption& option) { return option.name == "--changes"; });
}

int faults_in(const practice::Report& report, const assess::Weakest& weakest) {
    const auto& changes = report.assessment.changes;
    return static_cast<int>(
        std::count_if(changes.begin(), changes.end(), [&](const assess::Change& change) {
            return !change.seam && !change.uncertain && change.cost() > 0 &&
                   change.bar >= weakest.from_bar && change.bar <= weakest.to_bar;
        }));
}

/// "B:5-8", as --bars takes it; empty where a section has no name of its own, or they are of two.
std::string in_section(const chart::Form& form, const assess::Weakest& weakest) {
    const auto& from = form.bar(weakest.from_bar);
    const auto& to = form.bar(weakest.to_bar);
    const bool one = from.section == to.section && from.occurrence == to.occurrence;
    const bool alone =
        form.bars.front().section == form.bars.back().section && form.bars.back().occurrence == 1;
    if (!one || alone) return "";
    const auto which = from.occurrence > 1 ? fmt::format("@{}", from.occurrence) : "";
    return fmt::format(" ({}{}:{}-{})", from.section, which, from.bar_in_section,
                       to.bar_in_section);
}

}  // namespace

std::string suggestion_text(const practice::Report& report) {
    const auto& weakest = report.assessment.weakest;
    if (!weakest) return "";
    auto text =
        fmt::format("\nWeakest  {}{}: {} in {}\n", bars_words({weakest->from_bar, weakest->to_bar}),
                    in_section(report.map.form(), *weakest),
                    plural(faults_in(report, *weakest), "fault", "faults"),
                    plural(static_cast<int>(report.map.way().stretches.size()), "time through",
                           "times through"));
    if (report.chart_file.empty() && !has_own_changes(report)) return text;
    const bool run_in = weakest->loop.from < weakest->from_bar && !report.through_keys;
    const auto from = run_in ? fmt::format(", with bar {} to come from", weakest->loop.from) : "";
    return text + "         loop them" + from + ":\n" + command(report);
}

}  // namespace compline::report
