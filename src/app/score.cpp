#include "accidentals.hpp"
#include "judging.hpp"

#include <compline/report/report.hpp>
#include <compline/report/takes.hpp>

#include <fmt/format.h>

#include <memory>
#include <string>
#include <vector>

namespace compline::app {

namespace {

struct ScoreOptions {
    std::vector<std::string> takes;
    JudgingOptions judging;
    bool all = false;
    bool json = false;

    [[nodiscard]] report::Listing listing() const {
        return all ? report::Listing::all : report::Listing::one_screen;
    }
};

void score_one(const ScoreOptions& options) {
    const auto report = Judging(options.judging).judge(options.takes.front());
    if (options.json) {
        fmt::print("{}", report::to_json(report));
    } else {
        print_words(report::to_text(report, options.listing()));
    }
}

/// What is wrong with one of several is said, and the others are judged all the same.
Status score_several(const ScoreOptions& options) {
    const Judging judging(options.judging);
    Status status = Status::done;
    std::vector<practice::Report> reports;
    for (const auto& take : options.takes) {
        try {
            reports.push_back(judging.judge(take));
        } catch (const chart::ChartError& error) {
            say(error.what());
            status = Status::bad_input;
        } catch (const BadInput& error) {
            say(error.what());
            status = Status::bad_input;
        }
    }
    if (reports.empty()) return status;
    const std::span<const practice::Report> takes(reports);
    if (options.json) {
        fmt::print("{}", report::to_json(takes));
    } else {
        print_words(report::to_text(takes, options.listing()));
    }
    return status;
}

Status score(const ScoreOptions& options) {
    if (options.takes.size() > 1) return score_several(options);
    score_one(options);
    return Status::done;
}

}  // namespace

ProgramCommand score_command() {
    const auto options = std::make_shared<ScoreOptions>();
    const std::vector<Option> takes = {
        needed({"TAKE", "",
                "What was played: recorded takes, or other Standard MIDI Files; of several a\n"
                "line each, and the report of all together",
                "", file_names(&options->takes)})};
    const std::vector<Option> shown = {
        {"--all", "", "Every fault is listed.", "as many as fit one screen", flag(&options->all)},
        {"--json", "", "The report as JSON.", "in words", flag(&options->json)},
        accidentals_option()};
    ProgramCommand command{
        "score", "Judge recorded takes against their chart",
        joined({takes, played_options(options->judging), how_options(options->judging), shown}),
        [options] { return score(*options); }};
    command.settled = settled(options->judging);
    return command;
}

}  // namespace compline::app
