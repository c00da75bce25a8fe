#include "practice_music.hpp"

#include "ladder.hpp"
#include "own_takes.hpp"
#include "quick_chart.hpp"
#include "voicings_played.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/write_chart.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::app {

namespace {

constexpr int most_times = 1000;

/// The chart's file, or the few changes that were typed.
WantedChart read_chart_or_changes(const PracticeMusic& options) {
    if (options.changes.empty())
        return load_chart(options.chart, options.key, read_fretboard(options.hand.guitar).frets());
    auto wanted = in_key(chart_of_changes(options.changes), options.key, chart::highest_fret);
    auto text = chart::write_chart(wanted.chart);
    return {chart::unroll(std::move(wanted.chart)), std::move(text), {}};
}

void refuse_no_chart(const PracticeMusic& options) {
    if (options.chart.empty() == !options.changes.empty()) return;
    throw BadInput(
        options.chart.empty()
            ? "practice needs a chart, or changes such as --changes \"Dm7 | G7 | Cmaj7\"\n"
              "See compline practice --help."
            : "--changes are practised without a chart: leave out one of them");
}

void refuse_bars_twice(const PracticeMusic& options) {
    const int said =
        (options.bars.empty() ? 0 : 1) + (options.around ? 1 : 0) + (options.weakest ? 1 : 0);
    if (said < 2) return;
    throw BadInput(fmt::format("{} and {} both say which bars: leave out one of them",
                               options.around ? "--around" : "--weakest",
                               options.bars.empty() ? "--weakest" : "--bars"));
}

/// The bars asked for; those around a bar begin one before it and end two behind it.
std::string bars_asked(const PracticeMusic& options, const chart::Form& form) {
    refuse_bars_twice(options);
    if (options.weakest) {
        const auto weakest = weakest_bars(form);
        say(weakest.why);
        return weakest.bars;
    }
    if (!options.around) return options.bars;
    const int last = form.whole().to;
    if (*options.around > last) {
        throw BadInput(fmt::format("--around {}: there is no bar {}: the form has {} bars",
                                   *options.around, *options.around, last));
    }
    return fmt::format("{}-{}", std::max(1, *options.around - 1),
                       std::min(last, *options.around + 2));
}

/// One guitar is played: where words and options describe it, they describe the same.
guitar::Fretboard guitar_heard(const PracticeMusic& options,
                               const std::optional<guitar::VoicingPlan>& voicings) {
    const auto described = read_fretboard(options.hand.guitar);
    if (!voicings || voicings->fretboard == described) return described;
    if (options.hand.guitar.typed()) {
        throw BadInput(fmt::format(
            "{}: its guitar is another one than {} says: leave it out there",
            text::option_place(options.voicings.name, options.voicings.text),
            options.hand.guitar.name.empty() ? "--tuning, --capo or --frets" : guitar_option));
    }
    return voicings->fretboard;
}

/// Of the settings: what is wrong with the words is known before a chart is read.
ValueReader checked_words(AsGiven& words) {
    return {ValueReader::Takes::one, [&words](const std::string& name, const std::string& text) {
                (void)read_voicings(name, text);
                words = {text, name};
            }};
}

}  // namespace

AskedEvening read_music(const PracticeMusic& options) {
    refuse_no_chart(options);
    if (options.ladder) refuse_beside_ladder(options);
    auto chart = read_chart_or_changes(options);
    const auto bars = bars_asked(options, chart.form);
    if (!options.voicings.empty()) say_left_out(options.chart, chart);
    auto asked = read_asked(options, std::move(chart), bars, std::nullopt);
    AskedEvening evening(roadmap::RoadMap(std::move(asked.chart.form), asked.band.asked));
    evening.players = std::move(asked.band.players);
    evening.stage = asked.band.stage;
    evening.chart_file = options.chart;
    evening.through_keys = asked.through_keys;
    evening.chart_text = std::move(asked.chart.text);
    evening.voicing_words = options.voicings.text;
    evening.voicings = read_voicings_played(options.voicings, evening.map, options.hand);
    evening.fretboard = guitar_heard(options, evening.voicings);
    return evening;
}

std::vector<Option> options_of(PracticeMusic& options) {
    const std::vector<Option> what = {
        {"CHART", "", "Chart file", "", file_name(&options.chart)},
        tempo_option(options.tempo, "Quarter notes a minute, 30 to 400.", "the chart's"),
        {"--bars", "BARS", "What to practise: 9-12, or B:1-4 in the first B.", "the whole form",
         as_typed(&options.bars)},
        {"--around", "BAR", "A bar with the one before it and the two behind it.", "the whole form",
         whole_number(1, chart::most_bars, &options.around)},
        {"--weakest", "", "The bars that your newest takes of this chart call the weakest.",
         "the whole form", flag(&options.weakest)},
        {"--changes", "CHANGES", "Chords to practise without a chart: \"Dm7 | G7 | Cmaj7 | A7b9\".",
         "the chart's", as_typed(&options.changes)},
        {"--times", "N", "Times through, 1 to 1000, without a gap.", "until you stop",
         whole_number(1, most_times, &options.times), "--passes"},
        ladder_option(options.ladder,
                      "The same bars from a slow tempo up to a fast one, such as 96-132: twice\n"
                      "clean and it is 4 % faster, twice not and it is slower; at the top once\n"
                      "through the section."),
        as_setting(
            voicings_option(options.voicings,
                            "The grip to hold and the next one are shown, by a plan of voicings"),
            checked_words(options.voicings))};
    return joined(
        {what, options_of(options.key), {each_time_option(options.key)}, options_of(options.band)});
}

}  // namespace compline::app
