#include "tell_weeks.hpp"

#include "accidentals.hpp"
#include "history_file.hpp"
#include "rebuild_history.hpp"
#include "weeks_options.hpp"

#include <compline/report/weeks_page.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <system_error>
#include <utility>
#include <vector>

namespace compline::app {

namespace {

using history::TuneHistory;

/// What the history has of a player, as it is asked for.
struct PlayersHistory {
    std::vector<TuneHistory> tunes;
    std::vector<report::HomeworkSoFar> homework;
    std::vector<history::PlayerSeen> others;
};

std::vector<history::PlayerSeen> others_than(const std::string& player,
                                             std::vector<history::PlayerSeen> players) {
    players.erase(std::remove_if(players.begin(), players.end(),
                                 [&](const auto& one) { return one.name == player; }),
                  players.end());
    return players;
}

PlayersHistory history_of(const report::WeeksAsked& asked) {
    const auto history = open_history();
    if (!history) return {};
    const auto& player = asked.player;
    const auto homework = history->homework(player);
    const bool needs_all = !homework.empty() && !asked.since.empty();
    PlayersHistory all{
        history->tunes(player, asked.since), {}, others_than(player, history->players())};
    all.homework = so_far(homework, needs_all ? history->tunes(player) : all.tunes);
    return all;
}

report::AllWeeks weeks_of_all(const PlayersHistory& all, const std::string& since) {
    report::AllWeeks weeks;
    for (const auto& tune : all.tunes) weeks.tunes.push_back(report::weeks_of(tune, since));
    weeks.homework = all.homework;
    weeks.others = all.others;
    return weeks;
}

/// Takes were played before there was a history.
void tell_of_takes() {
    const auto takes = takes_without_history();
    if (takes == 0) return;
    fmt::print("\n{} {} among yours: this takes them in.\n         compline history --rebuild\n",
               takes, takes == 1 ? "take is" : "takes are");
}

/// The tune of a chart's file; of one that is gone, by its title.
std::optional<TuneHistory> tune_named(const std::string& word, const report::WeeksAsked& asked,
                                      std::string& title) {
    const auto history = open_history();
    std::error_code unknown;
    if (history && !std::filesystem::exists(word, unknown)) {
        for (auto& tune : history->tunes(asked.player, asked.since)) {
            if (text::same_but_for_capitals(tune.tune.title, word)) return std::move(tune);
        }
    }
    const auto chart = load_chart_file(word);
    title = chart.form.chart.title;
    if (!history) return std::nullopt;
    return history->tune(asked.player, kept_chart_of(chart, word), asked.since);
}

std::vector<report::HomeworkSoFar> homework_of_tune(const std::string& player, std::int64_t tune) {
    const auto history = open_history();
    if (!history) return {};
    auto homework = history->homework(player);
    homework.erase(std::remove_if(homework.begin(), homework.end(),
                                  [&](const auto& one) { return one.tune.id != tune; }),
                   homework.end());
    if (homework.empty()) return {};
    return so_far(homework, history->tunes(player));
}

void tell_never_played(const std::string& title, const WeeksTold& told) {
    const auto& asked = told.asked;
    if (told.json) {
        fmt::print("{}", report::weeks_json({}, asked));
        return;
    }
    const auto whose = asked.player.empty() ? "" : " by " + text::printable(asked.player);
    const auto since = asked.since.empty() ? " yet" : " since " + asked.since;
    fmt::print("{} was not played{}{}.\n", text::printable(title, std::string::npos), whose, since);
}

Status nothing_to_show() {
    say("no page is written: there is nothing to show");
    return Status::could_not;
}

}  // namespace

Status tell_all(const WeeksTold& told) {
    const auto all = reading_history([&] { return history_of(told.asked); });
    const auto weeks = weeks_of_all(all, told.asked.since);
    if (told.json) {
        fmt::print("{}", report::weeks_json(weeks, told.asked));
    } else {
        print_words(report::weeks_text(weeks, told.asked));
        tell_of_takes();
    }
    if (!told.page.is_asked()) return Status::done;
    if (all.tunes.empty() && all.homework.empty()) return nothing_to_show();
    save(told.page, report::weeks_html(all.tunes, weeks, told.asked));
    return Status::done;
}

Status tell_one(const std::string& word, const WeeksTold& told) {
    const auto& asked = told.asked;
    std::string title;
    const auto tune = reading_history([&] { return tune_named(word, asked, title); });
    if (!tune) {
        tell_never_played(title, told);
        return told.page.is_asked() ? nothing_to_show() : Status::done;
    }
    const auto homework =
        reading_history([&] { return homework_of_tune(asked.player, tune->tune.id); });
    const auto weeks = report::weeks_of(*tune, asked.since);
    if (told.json) {
        fmt::print("{}", report::weeks_json({{weeks}, homework, {}}, asked));
    } else {
        print_words(report::tune_text(weeks, homework, asked));
    }
    if (told.page.is_asked()) save(told.page, report::tune_html(*tune, homework, asked));
    return Status::done;
}

}  // namespace compline::app
