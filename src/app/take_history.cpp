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

void say_where(const fs::path& file, const std::string& fingerprint, history::TakeFacts& facts) {
    const auto whole = from_the_root(file);
    facts.folder = whole.parent_path().string();
    facts.file = whole.filename().string();
    facts.fingerprint = fingerprint;
}

std::optional<history::KnownTake> known_as(const std::string& fingerprint) {
    const auto history = open_history();
    return history ? history->find(fingerprint) : std::nullopt;
}

std::optional<history::JudgedTake> rows_of_ours(const fs::path& file, const LoadedTake& loaded,
                                                const std::optional<std::string>& player) {
    const auto& take = loaded.take;
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
    say_where(file, loaded.fingerprint, facts);
    return history::judged_take(report, facts);
}

std::optional<history::JudgedTake> rows_from_elsewhere(const practice::Report& report,
                                                       const fs::path& file,
                                                       const std::string& fingerprint,
                                                       const JudgingOptions& options,
                                                       const std::string& player) {
    const bool fits = report.hints.empty() && options.chart != standard_input;
    if (!fits || options.chart.empty() || !anything_struck(report)) return std::nullopt;
    history::TakeFacts facts;
    facts.of_ours = false;
    facts.player = player;
    facts.made = local_time_of(file);
    facts.chart_text = chart::load_chart_text(options.chart);
    facts.chart_file = from_the_root(options.chart).string();
    const auto& played = report.map.form().chart;
    if (played.written_in) facts.key = played.key.name(harmony::Accidentals::letters);
    say_where(file, fingerprint, facts);
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

bool anything_struck(const practice::Report& report) {
    const auto& changes = report.assessment.changes;
    return std::any_of(changes.begin(), changes.end(), [](const auto& change) {
        return change.verdict != assess::Verdict::missed &&
               change.verdict != assess::Verdict::laid_out;
    });
}

std::string fingerprint_of(const fs::path& file) {
    return fmt::format("{:016x}", chart::fnv1a_64(files::load_text(file)));
}

std::optional<history::JudgedTake> rows_of_take(const fs::path& file,
                                                const std::optional<std::string>& player) {
    return rows_of_ours(file, read_take_file(file.string(), practice::TakeTexts::read), player);
}

std::optional<history::JudgedTake> rows_of_scored(
    const fs::path& file, const practice::Report& report, const JudgingOptions& options,
    const std::optional<std::string>& player) noexcept {
    try {
        const auto texts =
            options.notes_alone ? practice::TakeTexts::ignored : practice::TakeTexts::read;
        const auto loaded = read_take_file(file.string(), texts);
        const auto known = known_as(loaded.fingerprint);
        if (loaded.take.info && loaded.take.info->version > 1) {
            const bool is_there = known && known->rules == assess::rules_version &&
                                  (!player || known->player == *player);
            return is_there ? std::nullopt : rows_of_ours(file, loaded, player);
        }
        // What a take says of itself is better than what is said of its notes alone.
        if (known && known->of_ours) return std::nullopt;
        const auto whose = player.value_or(known ? known->player : "");
        return rows_from_elsewhere(report, file, loaded.fingerprint, options, whose);
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
            if (!chart.empty()) rows->chart.file = from_the_root(chart).string();
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
