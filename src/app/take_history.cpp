#include "take_history.hpp"

#include "command.hpp"
#include "history_file.hpp"
#include "session_files.hpp"
#include "take_input.hpp"

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

void say_not_kept(const std::exception& error) {
    say(
        fmt::format("It is not in your history: {}\nThe take has all of it: compline history "
                    "--rebuild makes up for it.",
                    error.what()));
}

}  // namespace

std::string fingerprint_of(const fs::path& file) {
    const auto bytes = files::load_text(file);
    return fmt::format("{:016x}", chart::fnv1a_64(bytes));
}

std::optional<history::JudgedTake> rows_of_take(const fs::path& file,
                                                const std::optional<std::string>& player) {
    const auto take = read_take_file(file.string(), practice::TakeTexts::read).take;
    if (!take.info || take.info->version == 1 || take.info->made.empty()) return std::nullopt;
    const auto form = form_of(take, file.string(), "");
    auto report = text::read_at(files::name_of(file),
                                [&] { return practice::hear_and_judge(form, take, {}); });
    if (!anything_struck(report)) return std::nullopt;
    report.program = version;
    auto facts = history::facts_of(*take.info);
    if (player) facts.player = *player;
    say_where(file, facts);
    return history::judged_take(report, facts);
}

std::optional<history::JudgedTake> rows_of_report(const practice::Report& report,
                                                  const fs::path& file, const std::string& chart,
                                                  const std::string& player) {
    if (!anything_struck(report)) return std::nullopt;
    history::TakeFacts facts;
    facts.of_ours = false;
    facts.player = player;
    facts.made = local_time_of(file);
    facts.chart_text = chart::load_chart_text(chart);
    facts.chart_file = from_root(chart).string();
    const auto& played = report.map.form().chart;
    if (played.written_in) facts.key = played.key.name(harmony::Accidentals::letters);
    say_where(file, facts);
    return history::judged_take(report, facts);
}

void keep_in_history(const std::vector<history::JudgedTake>& takes) noexcept {
    if (takes.empty()) return;
    try {
        open_or_make_history().enter(takes);
    } catch (const std::exception& error) {
        say_not_kept(error);
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
            say_not_kept(error);
        }
    }
    keep_in_history(takes);
}

Option no_history_option(bool& without) {
    return {"--no-history", "", "It is not kept in your history.", "it is", flag(&without)};
}

}  // namespace compline::app
