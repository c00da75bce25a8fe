#include "take_history.hpp"

#include "command.hpp"
#include "history_file.hpp"
#include "session_files.hpp"
#include "take_input.hpp"

#include <compline/assess/rules_version.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/files/file_io.hpp>
#include <compline/practice/scoring.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

fs::path from_root(const fs::path& file) {
    std::error_code unknown;
    const auto whole = fs::absolute(file, unknown);
    return unknown ? file : whole.lexically_normal();
}

void say_where(const fs::path& file, history::TakeFacts& facts) {
    const auto whole = from_root(file);
    facts.folder = whole.parent_path().string();
    facts.file = whole.filename().string();
    facts.fingerprint = fingerprint_of(file);
}

bool anything_struck(const practice::Report& report) {
    const auto& changes = report.assessment.changes;
    return std::any_of(changes.begin(), changes.end(), [](const auto& change) {
        return change.verdict != assess::Verdict::missed &&
               change.verdict != assess::Verdict::laid_out;
    });
}

bool carries_its_chart(const fs::path& file) {
    const auto take = read_take_file(file.string(), practice::TakeTexts::read).take;
    return take.info && take.info->version > 1;
}

/// As it is judged now, and whose it is said to be.
bool is_known(const fs::path& file, const std::optional<std::string>& player) {
    const auto history = open_history();
    const auto known = history ? history->find(fingerprint_of(file)) : std::nullopt;
    return known && known->rules == assess::rules_version && (!player || known->player == *player);
}

std::optional<history::JudgedTake> rows_from_elsewhere(const practice::Report& report,
                                                       const fs::path& file,
                                                       const JudgingOptions& options,
                                                       const std::string& player) {
    const bool fits = report.hints.empty() && options.chart != standard_input;
    if (!fits || options.chart.empty() || !anything_struck(report)) return std::nullopt;
    history::TakeFacts facts;
    facts.of_ours = false;
    facts.player = player;
    facts.made = local_time_of(file);
    facts.chart_text = chart::load_chart_text(options.chart);
    facts.chart_file = from_root(options.chart).string();
    const auto& played = report.map.form().chart;
    if (played.written_in) facts.key = played.key.name(harmony::Accidentals::letters);
    say_where(file, facts);
    return history::judged_take(report, facts);
}

void say_not_kept(const std::exception& error, const char* cure) {
    say(fmt::format("It is not in your history: {}\n{}", error.what(), cure));
}

constexpr const char* score_again = "Once that is mended, score it again.";
constexpr const char* rebuild = "Once that is mended: compline history --rebuild";

void keep_in_history(const std::vector<history::JudgedTake>& takes, const char* cure) noexcept {
    if (takes.empty()) return;
    try {
        open_or_make_history().enter(takes);
    } catch (const std::exception& error) {
        say_not_kept(error, cure);
    }
}

}  // namespace

std::string fingerprint_of(const fs::path& file) {
    const auto bytes = files::load_text(file);
    return fmt::format("{:016x}", chart::fnv1a_64(bytes));
}

std::optional<history::JudgedTake> rows_of_take(const fs::path& file,
                                                const std::optional<std::string>& player) {
    const auto take = read_take_file(file.string(), practice::TakeTexts::read).take;
    if (!take.info || take.info->version == 1) return std::nullopt;
    const auto made = take.info->made.empty() ? local_time_in(file) : take.info->made;
    if (made.empty()) return std::nullopt;
    const auto form = form_of(take, file.string(), "");
    auto report = text::read_at(files::name_of(file),
                                [&] { return practice::hear_and_judge(form, take, {}); });
    if (!anything_struck(report)) return std::nullopt;
    report.program = version;
    report.made = made;
    auto facts = history::facts_of(*take.info);
    if (player) facts.player = *player;
    say_where(file, facts);
    return history::judged_take(report, facts);
}

std::optional<history::JudgedTake> rows_of_scored(
    const fs::path& file, const practice::Report& report, const JudgingOptions& options,
    const std::optional<std::string>& player) noexcept {
    try {
        const bool is_ours = !options.notes_alone && carries_its_chart(file);
        if (!is_ours) return rows_from_elsewhere(report, file, options, player.value_or(""));
        return is_known(file, player) ? std::nullopt : rows_of_take(file, player);
    } catch (const std::exception& error) {
        say_not_kept(error, score_again);
        return std::nullopt;
    }
}

void keep_takes_in_history(const std::vector<fs::path>& files, const std::string& chart) noexcept {
    std::vector<history::JudgedTake> takes;
    for (const auto& file : files) {
        try {
            auto rows = rows_of_take(file);
            if (!rows) continue;
            if (!chart.empty()) rows->chart.file = from_root(chart).string();
            takes.push_back(*std::move(rows));
        } catch (const std::exception& error) {
            say_not_kept(error, rebuild);
        }
    }
    keep_in_history(takes, rebuild);
}

void keep_scored_in_history(const std::vector<history::JudgedTake>& takes) noexcept {
    keep_in_history(takes, score_again);
}

Option no_history_option(bool& without) {
    return {"--no-history", "", "It is not kept in your history.", "it is", flag(&without)};
}

}  // namespace compline::app
