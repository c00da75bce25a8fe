#include "accidentals.hpp"
#include "forget.hpp"
#include "history_file.hpp"
#include "rebuild_history.hpp"
#include "weeks_options.hpp"

#include <compline/history/trend.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

using history::TuneHistory;

struct HistoryOptions {
    std::vector<std::string> words;
    AsGiven player;
    std::string since;
    bool unasked = false;
    bool rebuild = false;
    bool check = false;
    bool json = false;
};

constexpr const char* forget_word = "forget";

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

PlayersHistory history_of(const HistoryOptions& options) {
    const auto history = open_history();
    if (!history) return {};
    const auto& player = options.player.text;
    const auto homework = history->homework(player);
    const bool needs_all = !homework.empty() && !options.since.empty();
    PlayersHistory all{
        history->tunes(player, options.since), {}, others_than(player, history->players())};
    all.homework = so_far(homework, needs_all ? history->tunes(player) : all.tunes);
    return all;
}

report::AllWeeks told(const PlayersHistory& all, const std::string& since) {
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

void tell_all(const HistoryOptions& options, const report::WeeksAsked& asked) {
    const auto weeks = told(reading_history([&] { return history_of(options); }), options.since);
    if (options.json) {
        fmt::print("{}", report::weeks_json(weeks, asked));
    } else {
        print_words(report::weeks_text(weeks, asked));
        tell_of_takes();
    }
}

/// The tune of a chart's file; of one that is gone, by its title.
std::optional<TuneHistory> tune_named(const HistoryOptions& options, std::string& title) {
    const auto& word = options.words.front();
    const auto& player = options.player.text;
    const auto history = open_history();
    std::error_code unknown;
    if (history && !std::filesystem::exists(word, unknown)) {
        for (auto& tune : history->tunes(player, options.since)) {
            if (text::same_but_for_capitals(tune.tune.title, word)) return std::move(tune);
        }
    }
    const auto chart = load_chart_file(word);
    title = chart.form.chart.title;
    if (!history) return std::nullopt;
    return history->tune(player, kept_chart_of(chart, word), options.since);
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

void tell_never_played(const HistoryOptions& options, const std::string& title,
                       const report::WeeksAsked& asked) {
    if (options.json) {
        fmt::print("{}", report::weeks_json({}, asked));
        return;
    }
    const auto whose = asked.player.empty() ? "" : " by " + text::printable(asked.player);
    const auto since = asked.since.empty() ? " yet" : " since " + asked.since;
    fmt::print("{} was not played{}{}.\n", text::printable(title, std::string::npos), whose, since);
}

void tell_one(const HistoryOptions& options, const report::WeeksAsked& asked) {
    std::string title;
    const auto tune = reading_history([&] { return tune_named(options, title); });
    if (!tune) {
        tell_never_played(options, title, asked);
        return;
    }
    const auto homework =
        reading_history([&] { return homework_of_tune(options.player.text, tune->tune.id); });
    const auto weeks = report::weeks_of(*tune, options.since);
    if (options.json) {
        fmt::print("{}", report::weeks_json({{weeks}, homework, {}}, asked));
    } else {
        print_words(report::tune_text(weeks, homework, asked));
    }
}

Status forget_what_was_said(const HistoryOptions& options) {
    if (options.json || !options.since.empty()) {
        throw BadInput("history forget takes neither --json nor --since: leave them out");
    }
    const std::vector<std::string> takes(options.words.begin() + 1, options.words.end());
    const bool of_player = is_option_name(options.player.name);
    if (takes.empty() == of_player) {
        return forget({takes, of_player ? options.player.text : "", options.unasked});
    }
    throw BadInput(
        "say what is to be forgotten: compline history forget TAKE, or compline history forget "
        "--player NAME");
}

/// They are of the file as a whole.
Status see_to_file(const HistoryOptions& options) {
    const char* const name = options.rebuild ? "--rebuild" : "--check";
    const bool says_more = !options.words.empty() || is_option_name(options.player.name) ||
                           !options.since.empty() || options.json || options.unasked;
    if (says_more || (options.rebuild && options.check)) {
        throw BadInput(fmt::format("history {} stands alone: it is of all that is kept", name));
    }
    if (options.rebuild) return rebuild_history();
    return reading_history([] { return check_history(); });
}

Status tell_history(const HistoryOptions& options) {
    const auto& words = options.words;
    if (options.rebuild || options.check) return see_to_file(options);
    if (!words.empty() && words.front() == forget_word) return forget_what_was_said(options);
    if (options.unasked) throw BadInput("--yes is for history forget: leave it out");
    if (words.size() > 1) {
        throw BadInput(
            "write compline history alone, compline history CHART, or compline history forget "
            "TAKE");
    }
    auto asked = weeks_asked(options.player);
    asked.since = options.since;
    words.empty() ? tell_all(options, asked) : tell_one(options, asked);
    return Status::done;
}

ValueReader day(std::string* place) {
    return {ValueReader::Takes::one, [place](const std::string& name, const std::string& text) {
                if (!history::days_of(text)) {
                    throw BadInput(text::option_place(name, text), "",
                                   "expected a day as year, month and day, such as 2026-10-01");
                }
                *place = text;
            }};
}

}  // namespace

ProgramCommand history_command() {
    const auto options = std::make_shared<HistoryOptions>();
    return {"history",
            "Whether weeks of practice helped: all tunes, or one",
            {{"WORDS", "",
              "CHART, for one tune; or forget TAKE, or forget --player NAME, which removes\n"
              "them for good. Without words all tunes are told of.",
              "", all_as_typed(&options->words)},
             player_option(options->player),
             {"--since", "DAY", "Evenings before that do not count, such as 2026-10-01.",
              "all count", day(&options->since)},
             {"--yes", "", "What is to be forgotten goes unasked.", "you are asked",
              flag(&options->unasked)},
             {"--rebuild", "", "It is made anew from your takes, judged as they are judged now.",
              "", flag(&options->rebuild)},
             {"--check", "", "Whether its file is whole.", "", flag(&options->check)},
             {"--json", "", "It as JSON.", "in words", flag(&options->json)},
             accidentals_option()},
            [options] { return tell_history(*options); }};
}

}  // namespace compline::app
