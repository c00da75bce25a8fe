#include "weeks_lines.hpp"

#include "weeks_words.hpp"

#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace compline::report {

namespace {

constexpr const char* in_its_place = "CHART";

std::optional<std::string> chart_word(const history::KnownTune& tune, const WeeksAsked& asked) {
    return asked.chart_word ? asked.chart_word(tune) : std::nullopt;
}

std::vector<practice::KeptOption> whose(const WeeksAsked& asked) {
    if (!asked.name_player || asked.player.empty()) return {};
    return {{"--player", asked.player}};
}

std::string tempo_or_ladder(const history::Thing& thing) {
    if (thing.times == 0) {
        return fmt::format("--ladder {}-{}", beats_words(thing.from_bpm),
                           beats_words(thing.to_bpm));
    }
    return "--tempo " + beats_words(thing.from_bpm);
}

std::string times_piece(const history::Thing& thing) {
    return thing.times == 0 ? "" : fmt::format("--times {}", thing.times);
}

/// A bar with the one before it and two behind it: four to loop. Behind the form a coda is alone.
std::string loop_around(int bar, int bars) {
    if (bar > bars) return bars_piece(bar, bar);
    return bars_piece(std::max(1, bar - 1), std::min(bars, bar + 2));
}

/// In few of them, to choose from.
constexpr const char* other_plans = "--alternatives 3";

}  // namespace

std::string bars_piece(int from, int to) { return fmt::format("--bars {}-{}", from, to); }

CommandLine line_for(const history::KnownTune& tune, std::vector<std::string> pieces,
                     const WeeksAsked& asked) {
    if (tune.drill) {
        pieces.insert(pieces.begin(), "--changes " + shell_word(tune.title, "CHANGES"));
        return {"practice", "", std::move(pieces), whose(asked)};
    }
    return {"practice", chart_word(tune, asked).value_or(in_its_place), std::move(pieces),
            whose(asked)};
}

std::string lost_chart_words(const history::KnownTune& tune, const WeeksAsked& asked) {
    if (tune.drill || chart_word(tune, asked)) return "";
    const auto put = fmt::format("put the file of {} in place of CHART", title_words(tune));
    if (tune.chart_file.empty()) return fmt::format("Where its chart is, is not known: {}.", put);
    return fmt::format("Its chart is not at {} any more: {}.",
                       text::printable(tune.chart_file, std::string::npos), put);
}

std::string lines_for(const history::KnownTune& tune, std::vector<std::string> pieces,
                      const WeeksAsked& asked) {
    const auto lost = lost_chart_words(tune, asked);
    constexpr int indent = 9;
    return (lost.empty() ? "" : paragraph(lost, indent)) +
           line_for(tune, std::move(pieces), asked).in_lines();
}

CommandLine homework_line(const history::Homework& homework, const WeeksAsked& asked) {
    return line_for(homework.tune,
                    {bars_piece(homework.from_bar, homework.to_bar),
                     fmt::format("--ladder {}-{}", beats_words(homework.from_bpm),
                                 beats_words(homework.to_bpm))},
                    asked);
}

std::optional<NextLoop> next_of(const TuneWeeks& tune) {
    const auto& story = tune.story;
    if (story.weakest.empty()) return std::nullopt;
    const int bar = story.weakest.front().bar;
    // From nine tenths of the usual tempo up to it.
    const double usual = story.then_and_now ? story.then_and_now->now_bpm : 0;
    const auto tempo =
        usual > 0 ? fmt::format("--ladder {:.0f}-{:.0f}", std::round(usual * 0.9), usual) : "";
    return NextLoop{fmt::format("bar {}{}", bar,
                                bar > 1 && bar <= tune.bars ? ", with the bar to come from" : ""),
                    {loop_around(bar, tune.bars), tempo}};
}

std::vector<CommandLine> lines_of(const history::Thing& thing, const WeeksAsked& asked) {
    using history::ThingKind;
    const auto tempo = tempo_or_ladder(thing);
    const auto times = times_piece(thing);
    switch (thing.kind) {
        case ThingKind::homework:
            if (thing.homework) return {homework_line(*thing.homework, asked)};
            break;
        case ThingKind::transition:
            return {{"practice",
                     "",
                     {"--changes " + shell_word(thing.changes, "CHANGES"), tempo, times},
                     whose(asked)}};
        case ThingKind::first_take:
            return {{"practice", in_its_place, {"--times 1"}, whose(asked)},
                    {"new", "", {"mine"}, {}}};
        case ThingKind::due:
        case ThingKind::whole_tune:
            return {line_for(thing.tune, {tempo, times}, asked)};
        case ThingKind::place:
            break;
    }
    const auto bars = bars_piece(thing.from_bar, thing.to_bar);
    const auto practice = line_for(thing.tune, {bars, tempo, times}, asked);
    if (thing.task != history::Task::other_grips || thing.tune.drill) return {practice};
    return {{"plan", practice.chart, {bars, other_plans}, {}}, practice};
}

}  // namespace compline::report
