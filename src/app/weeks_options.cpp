#include "weeks_options.hpp"

#include "session_files.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/practice/evening_date.hpp>

#include <algorithm>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

/// How a file is typed from here: as seen from this folder, where that is shorter.
std::optional<std::string> word_for_chart(const std::string& file) {
    std::error_code unknown;
    if (!fs::is_regular_file(file, unknown)) return std::nullopt;
    const auto here = fs::current_path(unknown);
    if (unknown) return file;
    const auto from_here = fs::path(file).lexically_relative(here).string();
    const bool is_shorter = !from_here.empty() && from_here.size() < file.size();
    if (!is_shorter) return file;
    return from_here.front() == '-' ? "./" + from_here : from_here;
}

}  // namespace

Option player_option(AsGiven& player) {
    return as_setting(
        {"--player", "NAME", "Whose evenings.", "those without a name", as_given(&player)});
}

report::WeeksAsked weeks_asked(const AsGiven& player) {
    report::WeeksAsked asked;
    asked.today = practice::evening_of(local_time_now());
    asked.player = player.text;
    asked.name_player = is_option_name(player.name);
    asked.chart_word = word_for_chart;
    return asked;
}

fs::path from_the_root(const std::string& path) {
    std::error_code unknown;
    const auto whole = fs::absolute(path, unknown);
    return unknown ? fs::path(path) : whole.lexically_normal();
}

history::KeptChart kept_chart_of(const ChartFile& file, const std::string& path) {
    const auto& chart = file.form.chart;
    return {chart::chart_hash(chart),
            chart.title,
            chart.key.name(harmony::Accidentals::letters),
            file.text,
            path == standard_input ? "" : from_the_root(path).string(),
            false};
}

std::vector<report::HomeworkSoFar> so_far(const std::vector<history::Homework>& homework,
                                          const std::vector<history::TuneHistory>& tunes) {
    std::vector<report::HomeworkSoFar> all;
    for (const auto& one : homework) {
        const auto tune = std::find_if(tunes.begin(), tunes.end(), [&](const auto& played) {
            return played.tune.id == one.tune.id;
        });
        const auto runs = tune == tunes.end() ? std::vector<history::CleanRun>{} : tune->runs;
        all.push_back({one, history::done_on(one, runs)});
    }
    return all;
}

}  // namespace compline::app
