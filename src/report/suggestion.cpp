#include "suggestion.hpp"

#include "change_words.hpp"
#include "words.hpp"

#include <compline/practice/evening.hpp>
#include <compline/practice/ladder.hpp>
#include <compline/practice/time_alone.hpp>
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

CommandLine loop_command(const practice::Report& report) {
    const auto loop = loop_of(report);
    const auto key = loop.key.empty() ? "" : "--key " + shell_word(loop.key, "KEY");
    return {"practice",
            report.chart_file,
            {fmt::format("--bars {}-{}", loop.bars.from, loop.bars.to), key, tempo_words(report)},
            report.kept};
}

/// Changes that were typed need no chart.
bool has_own_changes(const practice::Report& report) {
    return std::any_of(
        report.kept.begin(), report.kept.end(),
        [](const practice::KeptOption& option) { return option.name == "--changes"; });
}

bool can_be_typed(const practice::Report& report) {
    return !report.chart_file.empty() || has_own_changes(report);
}

/// Half of the changes or more were struck: enough to say what comes next.
bool was_played(const practice::Report& report) {
    const auto& assessment = report.assessment;
    const int struck = count_certain(assessment.changes, was_struck);
    return struck > 0 && struck * 2 >= assessment.totals.changes;
}

bool is_clean(const practice::Report& report) {
    const auto [landed, of] = in_time(report.assessment);
    return landed == of &&
           (!practice::judges_tones(report) || report.assessment.totals.right_tones == of);
}

/// What comes next, and the bars and tempo that it is played with: as options, or empty.
struct NextTime {
    const char* what;
    std::string bars;
    std::string tempo;
};

/// Once it is clean, a step faster, as the key on the screen goes, up to the chart's tempo; then
/// the whole tune (a practice for every day, no source).
NextTime next_time(const practice::Report& report) {
    const auto& map = report.map;
    const auto& form = map.form();
    const auto played = map.way().reach();
    const bool is_whole = played.from == form.whole().from && played.to == form.whole().to;
    const auto bars = is_whole ? "" : fmt::format("--bars {}-{}", played.from, played.to);
    const auto last = map.bar(*map.bars()).tune_tempo;
    const auto as_it_was = tempo_piece(last, form.chart);
    if (!is_clean(report)) return {"the same again", bars, as_it_was};
    const bool is_up_to_it = report.ladder || last >= form.chart.tempo;
    if (!is_whole && is_up_to_it) return {"the whole tune", "", as_it_was};
    const auto faster = practice::moved(last, practice::Evening::step);
    if (faster.count() > chart::fastest_bpm) return {"the same again", bars, as_it_was};
    return {"the same, 4 % faster", bars, "--tempo " + plain(faster.count())};
}

/// Where no bars are weak.
Suggestion what_comes_next(const practice::Report& report) {
    if (!can_be_typed(report) || report.through_keys || !report.hints.empty()) return {};
    if (!was_played(report)) return {};
    const auto& chart = report.map.form().chart;
    const auto key =
        chart.written_in ? "--key " + chart.key.name(harmony::Accidentals::letters) : "";
    const auto [what, bars, tempo] = next_time(report);
    return {"", what, CommandLine{"practice", report.chart_file, {bars, key, tempo}, report.kept}};
}

}  // namespace

Suggestion suggestion_of(const practice::Report& report) {
    const auto& weakest = report.assessment.weakest;
    if (!weakest) return what_comes_next(report);
    Suggestion suggestion{weakest_words(report), "", {}};
    if (!can_be_typed(report)) return suggestion;
    const bool run_in = weakest->loop.from < weakest->from_bar && !report.through_keys;
    suggestion.what = "loop them";
    if (run_in) suggestion.what += fmt::format(", with bar {} to come from", weakest->loop.from);
    suggestion.command = loop_command(report);
    return suggestion;
}

std::string suggestion_text(const practice::Report& report) {
    const auto [weakest, what, command] = suggestion_of(report);
    if (weakest.empty() && !command) return "";
    const auto line = command ? command->in_lines() : "";
    if (weakest.empty()) return fmt::format("\nNext     {}:\n", what) + line;
    const auto text = fmt::format("\nWeakest  {}\n", weakest);
    return command ? text + fmt::format("         {}:\n", what) + line : text;
}

}  // namespace compline::report
