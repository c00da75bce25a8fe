#include "command.hpp"
#include "rules.hpp"
#include "scoring.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/file_io.hpp>
#include <compline/midi/smf.hpp>

#include <fmt/format.h>

#include <memory>

namespace compline::app {

namespace {

struct Options {
    std::string take;
    std::string chart;
    std::string tempo;
    std::string bars;
    std::string offset;
    RuleOptions rules;
    bool no_pushes = false;
    bool json = false;
};

constexpr double furthest_offset_ms = 600000;
constexpr std::size_t largest_take = std::size_t{16} << 20U;  // bytes: days of comping

practice::Take load_take(const std::string& path) {
    midi::ReadFile read;
    practice::Take take;
    try {
        const auto bytes = midi::load_bytes(path, largest_take);
        if (bytes.empty()) throw BadInput(fmt::format("{}: the file is empty", path));
        read = midi::read_smf(bytes);
        take = practice::read_take(read.file);
    } catch (const midi::FileError& error) {
        throw BadInput(error.what());
    } catch (const midi::SmfError& error) {
        throw BadInput(fmt::format("{}: {}", path, error.what()));
    }
    if (read.cut_at && !take.info) {
        throw BadInput(
            fmt::format("{}: byte {}: the file ends in the middle of a track", path, *read.cut_at));
    }
    if (read.cut_at) {
        say(fmt::format("{}: the take was cut short; it is scored up to byte {}", path,
                        *read.cut_at));
    }
    if (take.messages.empty()) say(fmt::format("{}: there are no notes in it", path));
    return take;
}

ScoreRequest read_request(const Options& options, const chart::Form& form) {
    ScoreRequest request;
    request.pushes = !options.no_pushes;
    request.tempo = read_tempo(options.tempo);
    request.passage = read_bars(form, options.bars);
    if (!options.offset.empty()) {
        request.offset = time::from_milliseconds(
            read_number("--offset", options.offset, -furthest_offset_ms, furthest_offset_ms));
    }
    read_rules(options.rules, form, request);
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
        say(fmt::format("{}: the changes in {} are not those the take was played to", options.take,
                        options.chart));
    }
    warn_of_other_bars(take, request);
    auto report = score(form, take, request);
    report.chart_file = options.chart;
    const auto text = options.json ? report::to_json(report) : report::to_text(report);
    fmt::print("{}", text);
}

}  // namespace

Command score_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> what = {
        needed({"TAKE", "", "What was played: a recorded take, or another Standard MIDI File",
                &options->take}),
        needed({"--chart", "CHART", "The chart it was played to", &options->chart}),
        {"--tempo", "BPM",
         "Quarter notes a minute, 30 to 400.\nDefault: the take's, else the chart's",
         &options->tempo},
        {"--bars", "BARS",
         "What was played: 9-12, or B:1-4 in the first B.\n"
         "Default: the take's, else the whole form",
         &options->bars},
        {"--offset", "MS", "Where bar 1 is, in milliseconds after the take's own start. Default: 0",
         &options->offset}};
    const std::vector<Option> how = {
        {"--no-pushes", "", "A chord an off-beat early is early. Default: it is a push, and right",
         &options->no_pushes},
        {"--json", "", "The report as JSON. Default: in words", &options->json}};
    return {"score", "Judge a recorded take against its chart",
            joined({what, options_of(options->rules, "the take's, else "), how}), [options] {
                score_file(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
