#include "accidentals.hpp"
#include "forget.hpp"
#include "rebuild_history.hpp"
#include "tell_weeks.hpp"
#include "weeks_options.hpp"

#include <compline/history/trend.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <memory>
#include <string>
#include <vector>

namespace compline::app {

namespace {

struct HistoryOptions {
    std::vector<std::string> words;
    AsGiven player;
    bool unasked = false;
    bool rebuild = false;
    bool check = false;
    WeeksTold told;
};

constexpr const char* forget_word = "forget";

void refuse_page(const HistoryOptions& options) {
    if (options.told.page.is_asked() || options.told.page.replace) {
        throw BadInput("--html is for what the history tells: leave it out here");
    }
}

Status forget_what_was_said(const HistoryOptions& options) {
    refuse_page(options);
    if (options.told.json || !options.told.asked.since.empty()) {
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
    refuse_page(options);
    const char* const name = options.rebuild ? "--rebuild" : "--check";
    const bool says_more = !options.words.empty() || is_option_name(options.player.name) ||
                           !options.told.asked.since.empty() || options.told.json ||
                           options.unasked;
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
    auto told = options.told;
    told.asked = weeks_asked(options.player);
    told.asked.since = options.told.asked.since;
    refuse_taken(told.page, words);
    return words.empty() ? tell_all(told) : tell_one(words.front(), told);
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
    return {
        "history", "Whether weeks of practice helped: all tunes, or one",
        joined(
            {{{"WORDS", "",
               "CHART, for one tune; or forget TAKE, or forget --player NAME, which removes\n"
               "them for good. Without words all tunes are told of.",
               "", all_as_typed(&options->words)},
              player_option(options->player),
              {"--since", "DAY", "Evenings before that do not count, such as 2026-10-01.",
               "all count", day(&options->told.asked.since)},
              {"--yes", "", "What is to be forgotten goes unasked.", "you are asked",
               flag(&options->unasked)},
              {"--rebuild", "", "It is made anew from your takes, judged as they are judged now.",
               "", flag(&options->rebuild)},
              {"--check", "", "Whether its file is whole.", "", flag(&options->check)},
              {"--json", "", "It as JSON.", "in words", flag(&options->told.json)},
              accidentals_option()},
             options_of(options->told.page, "Write it as a page too")}),
        [options] { return tell_history(*options); }};
}

}  // namespace compline::app
