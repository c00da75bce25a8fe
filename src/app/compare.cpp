#include "accidentals.hpp"
#include "judging.hpp"

#include <compline/files/file_io.hpp>
#include <compline/report/takes.hpp>

#include <fmt/format.h>

#include <memory>
#include <string>

namespace compline::app {

namespace {

struct CompareOptions {
    std::string before;
    std::string after;
    JudgingOptions judging;
    bool json = false;
};

void compare_takes(const CompareOptions& options) {
    const Judging judging(options.judging);
    const auto before = judging.judge(options.before);
    const auto after = judging.judge(options.after);
    // By one chart that is given they may be in different keys: their places are the same.
    if (options.judging.chart.empty() && before.chart_hash != after.chart_hash) {
        throw BadInput(
            fmt::format("{} and {} carry different charts: say by --chart which one both "
                        "were played to",
                        files::name_of(options.before), files::name_of(options.after)));
    }
    const auto comparison = practice::compare(before, after);
    if (options.json) {
        fmt::print("{}", report::to_json(comparison, before, after));
    } else {
        print_words(report::to_text(comparison, before, after));
    }
}

}  // namespace

ProgramCommand compare_command() {
    const auto options = std::make_shared<CompareOptions>();
    const std::vector<Option> takes = {
        needed({"BEFORE", "", "The first take, or another Standard MIDI File", "",
                file_name(&options->before)}),
        needed({"AFTER", "", "The one that is compared with it", "", file_name(&options->after)})};
    const std::vector<Option> json = {
        {"--json", "", "The comparison as JSON.", "in words", flag(&options->json)},
        accidentals_option()};
    ProgramCommand command{
        "compare", "What got better from one take to another, place by place",
        joined({takes, played_options(options->judging), how_options(options->judging), json}),
        [options] {
            compare_takes(*options);
            return Status::done;
        }};
    command.settled = settled(options->judging);
    return command;
}

}  // namespace compline::app
