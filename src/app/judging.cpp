#include "judging.hpp"

#include "kept_options.hpp"
#include "odd_takes.hpp"
#include "other_charts.hpp"
#include "take_input.hpp"

#include <compline/files/file_io.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/practice/offers.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <filesystem>

namespace compline::app {

namespace {

constexpr double furthest_zero_ms = 600000;

/// The take knows in which key its own chart was played.
void refuse_key_alone(const JudgingOptions& options) {
    if (!options.key.asked() || !options.chart.empty()) return;
    throw BadInput(
        fmt::format("{} is for a chart: give it with --chart, or leave the key to the "
                    "take",
                    options.key.semitones ? "--transpose" : "--key"));
}

void refuse_whole_form_alone(const JudgingOptions& options) {
    if (!options.whole_form || !options.bars.empty()) return;
    throw BadInput("--whole-form says what --bars are a part of: give it with --bars");
}

Option delays_option(JudgingOptions& options) {
    const Choices<WhoseDelays> whose = {{"take", WhoseDelays::take},
                                        {"settings", WhoseDelays::settings}};
    return {"--delays", "WHOSE",
            "Which delays are taken off what was played: the take's, or those that your\n"
            "settings know by now (offset, string-offsets, round-trip, and the cycles of\n"
            "midi-pickup).\n",
            "take", one_of(whose, &options.delays)};
}

}  // namespace

std::vector<Option> played_options(JudgingOptions& options) {
    return {{"--chart", "CHART", "The chart it was played to.", "the take's own",
             file_name(&options.chart)},
            tempo_option(options.tempo, "Quarter notes a minute, 30 to 400.\n",
                         "the take's, else the chart's"),
            {"--bars", "BARS",
             "What is judged: 9-12, or B:1-4 in the first B. Of a take that was recorded\n"
             "here a part of what was played; a file from elsewhere is taken for these\n"
             "bars over and over.\n",
             "the take's, else the whole form", as_typed(&options.bars)},
            {"--whole-form", "",
             "With --bars, of a file from elsewhere: the whole form was played, and\n"
             "these bars of it are judged.\n",
             "they were played over and over", flag(&options.whole_form)},
            {"--offset", "MS", "Where bar 1 is, in milliseconds after the take's own start.", "0",
             number(-furthest_zero_ms, furthest_zero_ms, &options.offset_ms)},
            {"--notes-alone", "",
             "Only the notes are judged: what the take says of itself is not read.\n", "it is",
             flag(&options.notes_alone)}};
}

std::vector<Option> how_options(JudgingOptions& options) {
    return joined({options_of(options.key),
                   options_of(options.rules, "the take's, else "),
                   grouped("Your guitar",
                           joined({{which_guitar(options.guitar)}, options_of(options.guitar)})),
                   {delays_option(options)}});
}

std::vector<Option> settled(JudgingOptions& options) { return settled(options.usual_delays); }

Judging::Judging(const JudgingOptions& options) : options_(options) {
    refuse_key_alone(options);
    refuse_whole_form_alone(options);
    // The chart first, where one is given, and what is asked for: what is wrong there is plainer.
    if (options.chart.empty()) return;
    given_ = load_chart(options.chart, options.key).form;
    (void)request_for(*given_, Unsaid::by_settings);
}

practice::ScoreRequest Judging::request_for(const chart::Form& form, Unsaid unsaid) const {
    auto request = read_rules(options_.rules, form, unsaid);
    const bool guitar_typed = options_.guitar.typed();
    if (guitar_typed || (unsaid == Unsaid::by_settings && options_.guitar.asked())) {
        request.fretboard = read_fretboard(options_.guitar);
    }
    if (options_.tempo) request.tempo.emplace(*options_.tempo);
    request.passage = read_bars(form, options_.bars);
    request.whole_form = options_.whole_form;
    request.offset = time::from_milliseconds(options_.offset_ms);
    return request;
}

practice::DelaysNow Judging::delays_now(const guitar::Fretboard& guitar) const {
    const auto& known = options_.usual_delays;
    return {listen::live_delay(time::from_milliseconds(known.offset_ms), known.strings_of(guitar),
                               options_.rules.usual.request.pickup),
            known.round_trip};
}

chart::Form Judging::form_for(const practice::Take& take, const std::string& path) const {
    if (!given_) return form_of(take, path, "say by --chart what it was played to");
    if (!take.info || options_.key.asked()) return *given_;
    return text::read_at(files::name_of(path),
                         [&] { return practice::in_key_of(*take.info, *given_); });
}

practice::Report Judging::judge(const std::string& path) const {
    const auto texts =
        options_.notes_alone ? practice::TakeTexts::ignored : practice::TakeTexts::read;
    const auto take = load_take(path, texts);
    const auto form = form_for(take, path);
    auto request = request_for(form, take.info ? Unsaid::by_take : Unsaid::by_settings);
    if (options_.delays == WhoseDelays::settings) {
        const auto own = take.info ? take.info->fretboard : guitar::Fretboard::standard();
        request.delays = delays_now(request.fretboard.value_or(own));
    }
    const OddTake odd{take, path, options_.chart};
    if (given_) odd.say_other_chart(form);
    odd.say_other_bars(form, request);
    odd.say_no_delay(request);
    odd.say_no_tones(request);
    auto report =
        text::read_at(files::name_of(path), [&] { return hear_and_judge(form, take, request); });
    // Nobody can practise what came by the standard input.
    if (options_.chart != standard_input) report.chart_file = options_.chart;
    report.kept = kept_of(report.settings, take.info.value_or(practice::TakeInfo{}));
    report.program = version;
    report.take = std::filesystem::path(path).filename().string();
    look_for_another_chart(take, request, report);
    return report;
}

void Judging::look_for_another_chart(const practice::Take& take,
                                     const practice::ScoreRequest& request,
                                     practice::Report& report) const {
    if (report.chart_file.empty() || options_.key.asked() || take.info) return;
    if (!practice::right_changes(report).are_few()) return;
    const auto charts = charts_beside(report.chart_file);
    if (auto better = practice::offer_among(charts, take, request, report)) {
        report.hints = {*std::move(better)};
    }
}

}  // namespace compline::app
