#include "weeks_options.hpp"

#include "other_charts.hpp"
#include "session_files.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/practice/evening_date.hpp>

#include <algorithm>
#include <map>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

/// As seen from this folder, where that is shorter.
std::string typed_from_here(const fs::path& file) {
    std::error_code unknown;
    const auto here = fs::current_path(unknown);
    if (unknown) return file.string();
    const auto from_here = file.lexically_relative(here).string();
    const bool is_shorter = !from_here.empty() && from_here.size() < file.string().size();
    if (!is_shorter) return file.string();
    return from_here.front() == '-' ? "./" + from_here : from_here;
}

/// The charts of this folder by their hashes, read once where they are asked for: a history that
/// was made anew from takes does not know where charts lie.
class ChartsHere {
  public:
    std::optional<std::string> find(const std::string& hash) {
        if (!charts_) {
            charts_.emplace();
            for (const auto& other : charts_beside("")) {
                charts_->emplace(chart::chart_hash(other.form.chart), other.file);
            }
        }
        const auto found = charts_->find(hash);
        if (found == charts_->end()) return std::nullopt;
        return found->second;
    }

  private:
    std::optional<std::map<std::string, std::string>> charts_;
};

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
    asked.chart_word = [here = ChartsHere()](
                           const history::KnownTune& tune) mutable -> std::optional<std::string> {
        std::error_code unknown;
        const bool is_there =
            !tune.chart_file.empty() && fs::is_regular_file(tune.chart_file, unknown);
        return is_there ? typed_from_here(tune.chart_file) : here.find(tune.chart_hash);
    };
    return asked;
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
