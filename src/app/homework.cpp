#include "accidentals.hpp"
#include "give_homework.hpp"
#include "history_file.hpp"
#include "ladder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace compline::app {

namespace {

struct GivenHomework {
    std::vector<report::HomeworkSoFar> all;
    std::vector<std::string> others;  ///< who has some too
};

GivenHomework given_homework(const std::string& player) {
    const auto history = open_history();
    if (!history) return {};
    GivenHomework given{homework_of(*history, player), history->given_homework()};
    given.others.erase(std::remove(given.others.begin(), given.others.end(), player),
                       given.others.end());
    return given;
}

void list_homework(const HomeworkOptions& options, const report::WeeksAsked& asked) {
    if (!options.bars.empty() || options.ladder) {
        throw BadInput(
            "homework is of a chart: compline homework CHART --bars 9-12 --ladder 96-120");
    }
    const auto given = reading_history([&] { return given_homework(options.player.text); });
    if (options.json) {
        fmt::print("{}", report::homework_json(given.all, asked));
    } else {
        print_words(report::homework_text(given.all, given.others, asked));
    }
}

void run_homework(const HomeworkOptions& options) {
    const auto asked = weeks_asked(options.player);
    if (options.take_back && options.chart.empty()) {
        throw BadInput("say which is taken back: compline homework CHART --bars 9-12 --take-back");
    }
    if (options.page.is_asked() && (options.chart.empty() || options.take_back)) {
        throw BadInput(
            "--html is for a sheet that is given: compline homework CHART --bars 9-12 --ladder "
            "96-120");
    }
    refuse_taken(options.page, {options.chart});
    if (options.chart.empty()) {
        list_homework(options, asked);
    } else if (options.take_back) {
        take_homework_back(options);
    } else {
        give_homework(options, asked);
    }
}

}  // namespace

ProgramCommand homework_command() {
    const auto options = std::make_shared<HomeworkOptions>();
    auto ladder = ladder_option(options->ladder,
                                "From a slow tempo up to a fast one, such as 96-120. It is done "
                                "when the\nfast one is clean on two days.");
    ladder.usual.clear();
    ProgramCommand command{
        "homework", "Give a pupil bars and tempi to practise, or list what was given",
        joined({{{"CHART", "", "Chart file; left out: all that was given, and how far it is.", "",
                  file_name(&options->chart)},
                 {"--bars", "BARS", "What to practise: 9-12, or B:1-4 in the first B.", "",
                  as_typed(&options->bars)},
                 std::move(ladder),
                 player_option(options->player),
                 {"--take-back", "", "It is homework no more.", "", flag(&options->take_back)},
                 {"--no-grips", "", "The sheet has no grips for the bars.", "it has, as planned",
                  flag(&options->no_grips)},
                 {"--json", "", "It as JSON.", "in words", flag(&options->json)},
                 accidentals_option()},
                options_of(options->page, "Write the sheet as a page too")}),
        [options] {
            run_homework(*options);
            return Status::done;
        }};
    command.settled = options_of(options->voicings);
    return command;
}

}  // namespace compline::app
