#include "key_wish.hpp"
#include "rules.hpp"
#include "take_input.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/chart/difference.hpp>
#include <compline/files/file_io.hpp>
#include <compline/report/report.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

namespace compline::app {

namespace {

struct Options {
    std::string take;
    std::string chart;
    std::optional<double> tempo;
    std::string bars;
    KeyWish key;
    double offset_ms = 0;
    RuleOptions rules;
    bool no_pushes = false;
    bool notes_alone = false;
    bool json = false;
};

constexpr double furthest_offset_ms = 600000;

practice::ScoreRequest read_request(const Options& options, const chart::Form& form) {
    auto request = read_rules(options.rules, form);
    request.pushes = !options.no_pushes;
    if (options.tempo) request.tempo.emplace(*options.tempo);
    request.passage = read_bars(form, options.bars);
    request.offset = time::from_milliseconds(options.offset_ms);
    return request;
}

/// --bars says what was played; who wants to see a part of it is told so.
void warn_of_other_bars(const practice::Take& take, const practice::ScoreRequest& request) {
    if (!take.info || !request.passage) return;
    const auto played = take.info->asked.way.reach();
    if (*request.passage == played) return;
    say(
        fmt::format("the take says that bars {}-{} were played; it is scored as if {}-{} had been, "
                    "from its start on",
                    played.from, played.to, request.passage->from, request.passage->to));
}

/// The take knows in which key its own chart was played.
void refuse_key_alone(const Options& options) {
    if (!options.key.asked() || !options.chart.empty()) return;
    throw BadInput(
        fmt::format("{} is for a chart: give it with --chart, or leave the key to the "
                    "take",
                    options.key.semitones ? "--transpose" : "--key"));
}

std::string in_words(const std::string& chords) { return chords.empty() ? "no bar" : chords; }

/// A chart that is not the take's own is named, by bar: what was played was played to another.
void warn_of_other_chart(const practice::Take& take, const Options& options,
                         const chart::Form& form) {
    if (!take.info || take.info->chart_hash == chart::chart_hash(form.chart)) return;
    const auto name = files::name_of(options.take);
    if (take.info->version == 1) {
        say(fmt::format("{}: the changes in {} are not those the take was played to", name,
                        spoken_name(options.chart)));
        return;
    }
    constexpr std::size_t most_named = 3;
    const auto own = form_of(take, options.take, "");
    const auto bars = chart::differences(own, form);
    for (std::size_t i = 0; i < std::min(bars.size(), most_named); ++i) {
        const bool chords = bars[i].one != bars[i].other;
        say(fmt::format("{}: bar {} was played to {}; {} has {}", name, bars[i].bar,
                        in_words(bars[i].one), spoken_name(options.chart),
                        chords ? in_words(bars[i].other) : "other beats, kicks or another feel"));
    }
    if (bars.size() > most_named) {
        say(fmt::format("{}: {} bars more differ", name, bars.size() - most_named));
    }
}

void score_file(const Options& options) {
    refuse_key_alone(options);
    const auto texts =
        options.notes_alone ? practice::TakeTexts::ignored : practice::TakeTexts::read;
    // The chart first, where one is given, and what is asked for: what is wrong there is plainer.
    std::optional<chart::Form> given;
    std::optional<practice::ScoreRequest> request;
    if (!options.chart.empty()) {
        given = load_chart(options.chart, options.key).form;
        request = read_request(options, *given);
    }
    const auto take = load_take(options.take, texts);
    if (given && take.info && !options.key.asked()) {
        given = text::read_at(files::name_of(options.take),
                              [&] { return practice::in_key_of(*take.info, *given); });
    }
    const auto form =
        given ? *given : form_of(take, options.take, "say by --chart what it was played to");
    if (!request) request = read_request(options, form);
    if (given) warn_of_other_chart(take, options, form);
    warn_of_other_bars(take, *request);
    auto report = text::read_at(files::name_of(options.take),
                                [&] { return hear_and_judge(form, take, *request); });
    // Nobody can practise what came by the standard input.
    if (options.chart != standard_input) report.chart_file = options.chart;
    const auto text = options.json ? report::to_json(report) : report::to_text(report);
    fmt::print("{}", text);
}

}  // namespace

ProgramCommand score_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> what = {
        needed({"TAKE", "", "What was played: a recorded take, or another Standard MIDI File", "",
                file_name(&options->take)}),
        {"--chart", "CHART", "The chart it was played to.", "the take's own",
         file_name(&options->chart)},
        tempo_option(options->tempo, "Quarter notes a minute, 30 to 400.\n",
                     "the take's, else the chart's"),
        {"--bars", "BARS", "What was played: 9-12, or B:1-4 in the first B.\n",
         "the take's, else the whole form", as_typed(&options->bars)},
        {"--offset", "MS", "Where bar 1 is, in milliseconds after the take's own start.", "0",
         number(-furthest_offset_ms, furthest_offset_ms, &options->offset_ms)},
        {"--notes-alone", "",
         "Only the notes are judged: what the take says of itself is not read.\n", "it is",
         flag(&options->notes_alone)}};
    const std::vector<Option> how = {
        {"--no-pushes", "", "A chord an off-beat early is early.", "it is a push, and right",
         flag(&options->no_pushes)},
        {"--json", "", "The report as JSON.", "in words", flag(&options->json)}};
    return {"score", "Judge a recorded take against its chart",
            joined({what, options_of(options->key), options_of(options->rules, "the take's, else "),
                    how}),
            [options] {
                score_file(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
