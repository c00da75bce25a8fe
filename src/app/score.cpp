#include "command.hpp"
#include "rules.hpp"
#include "scoring.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <memory>

namespace compline::app {

namespace {

struct Options {
    std::string take;
    std::string chart;
    std::optional<double> tempo;
    std::string bars;
    double offset_ms = 0;
    RuleOptions rules;
    bool no_pushes = false;
    bool json = false;
};

constexpr double furthest_offset_ms = 600000;
constexpr std::size_t largest_take = std::size_t{16} << 20U;  // bytes: days of comping

practice::Take load_take(const std::string& path) {
    const auto bytes = files::load_bytes(path, largest_take);
    midi::ReadFile read;
    practice::Take take;
    text::read_at(files::name_of(path), [&] {
        if (bytes.empty()) throw BadInput("the file is empty");
        read = midi::read_smf(bytes);
        take = practice::read_take(read.file);
        if (!read.cut_at || take.info) return;
        throw text::bad_byte(*read.cut_at, "the file ends in the middle of a track");
    });
    if (read.cut_at) {
        say(fmt::format("{}: the take was cut short; it is scored up to byte {}",
                        files::name_of(path), *read.cut_at));
    }
    if (take.messages.empty())
        say(fmt::format("{}: there are no notes in it", files::name_of(path)));
    return take;
}

ScoreRequest read_request(const Options& options, const chart::Form& form) {
    auto request = read_rules(options.rules, form);
    request.pushes = !options.no_pushes;
    request.tempo = options.tempo;
    request.passage = read_bars(form, options.bars);
    request.offset = time::from_milliseconds(options.offset_ms);
    return request;
}

/// --bars says what was played; who wants to see a part of it is told so.
void warn_of_other_bars(const practice::Take& take, const ScoreRequest& request) {
    if (!take.info || !request.passage || *request.passage == take.info->route.reach()) return;
    say(
        fmt::format("the take says that bars {}-{} were played; it is scored as if {}-{} had been, "
                    "from its start on",
                    take.info->route.reach().from, take.info->route.reach().to,
                    request.passage->from, request.passage->to));
}

void score_file(const Options& options) {
    const auto form = load_form(options.chart);
    const auto request = read_request(options, form);
    const auto take = load_take(options.take);
    if (take.info && take.info->chart_hash != chart::chart_hash(form.chart)) {
        say(fmt::format("{}: the changes in {} are not those the take was played to",
                        files::name_of(options.take), spoken_name(options.chart)));
    }
    warn_of_other_bars(take, request);
    auto report = score(form, take, request);
    // Nobody can practise what came by the standard input.
    if (options.chart != standard_input) report.chart_file = options.chart;
    const auto text = options.json ? report::to_json(report) : report::to_text(report);
    fmt::print("{}", text);
}

}  // namespace

Command score_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> what = {
        needed({"TAKE", "", "What was played: a recorded take, or another Standard MIDI File", "",
                file_name(&options->take)}),
        needed({"--chart", "CHART", "The chart it was played to", "", file_name(&options->chart)}),
        tempo_option(options->tempo, "Quarter notes a minute, 30 to 400.\n",
                     "the take's, else the chart's"),
        {"--bars", "BARS", "What was played: 9-12, or B:1-4 in the first B.\n",
         "the take's, else the whole form", as_typed(&options->bars)},
        {"--offset", "MS", "Where bar 1 is, in milliseconds after the take's own start.", "0",
         number(-furthest_offset_ms, furthest_offset_ms, &options->offset_ms)}};
    const std::vector<Option> how = {
        {"--no-pushes", "", "A chord an off-beat early is early.", "it is a push, and right",
         flag(&options->no_pushes)},
        {"--json", "", "The report as JSON.", "in words", flag(&options->json)}};
    return {"score", "Judge a recorded take against its chart",
            joined({what, options_of(options->rules, "the take's, else "), how}), [options] {
                score_file(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
