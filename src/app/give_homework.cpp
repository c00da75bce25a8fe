#include "give_homework.hpp"

#include "accidentals.hpp"
#include "history_file.hpp"
#include "ladder.hpp"
#include "planning.hpp"
#include "session_files.hpp"

#include <compline/report/weeks_page.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <system_error>
#include <utility>

namespace compline::app {

namespace {

using history::Homework;

// Given.

/// Throws BadInput for what there is no homework of.
Homework read_homework(const HomeworkOptions& options, const ChartFile& chart,
                       const std::string& today) {
    if (options.bars.empty() || !options.ladder) {
        throw BadInput(
            "say which bars, and from which tempo up to which: --bars 9-12 --ladder 96-120");
    }
    const auto passage = *read_bars(chart.form, options.bars);
    auto asked = roadmap::Asked::of(passage, std::nullopt);
    set_ladder(*options.ladder, chart.form, asked);  // which refuses bars without a tempo
    Homework homework;
    homework.player = options.player.text;
    homework.given = today;
    homework.from_bar = passage.from;
    homework.to_bar = passage.to;
    homework.from_bpm = options.ladder->from.count();
    homework.to_bpm = options.ladder->to.count();
    return homework;
}

bool is_the_same(const Homework& a, const Homework& b) {
    return a.from_bar == b.from_bar && a.to_bar == b.to_bar && a.from_bpm == b.from_bpm &&
           a.to_bpm == b.to_bpm;
}

/// What is given is kept once, until it is done. As it stands in the history; new: else it had been
/// given before.
std::pair<report::HomeworkSoFar, bool> keep_homework(const Homework& wanted,
                                                     const history::KeptChart& chart) {
    auto history = open_or_make_history();
    for (const auto& one : homework_of(history, wanted.player)) {
        const bool same = one.homework.tune.chart_hash == chart.hash &&
                          is_the_same(one.homework, wanted) && !one.is_done();
        if (same) return {one, false};
    }
    const auto id = history.set_homework(wanted, chart);
    for (const auto& one : homework_of(history, wanted.player)) {
        if (one.homework.id == id) return {one, true};
    }
    return {{wanted, {}}, true};
}

/// Grips for the bars, by the settings. What cannot be planned is said, and left out.
std::optional<report::Voicings> grips_for(const HomeworkOptions& options, const ChartFile& chart,
                                          const Homework& homework) {
    if (options.no_grips) return std::nullopt;
    try {
        const auto [fretboard, wishes] = read_voicings(options.voicings);
        report::Voicings voicings;
        voicings.form = chart.form;
        voicings.wishes = wishes;
        voicings.plans =
            plan_for_player(spoken_name(options.chart), {voicings.form,
                                                         {homework.from_bar, homework.to_bar},
                                                         time::Bpm(homework.to_bpm),
                                                         fretboard,
                                                         wishes,
                                                         1});
        return voicings;
    } catch (const BadInput& error) {
        say(fmt::format("no grips are planned: {}", error.what()));
        return std::nullopt;
    }
}

// Taken back.

/// Whether it is of the chart that was typed: a file, or a title where the file is gone.
bool is_of_chart(const Homework& homework, const std::string& word,
                 const std::optional<ChartFile>& chart) {
    if (!chart) return text::same_but_for_capitals(homework.tune.title, word);
    return homework.tune.chart_hash == kept_chart_of(*chart, word).hash ||
           homework.tune.chart_file == from_the_root(word).string();
}

std::optional<ChartFile> chart_if_there(const std::string& word) {
    std::error_code unknown;
    if (word != standard_input && !std::filesystem::exists(word, unknown)) return std::nullopt;
    return load_chart_file(word);
}

std::vector<Homework> meant(const HomeworkOptions& options, const std::vector<Homework>& all) {
    const auto chart = chart_if_there(options.chart);
    const auto bars = chart ? read_bars(chart->form, options.bars) : std::nullopt;
    std::vector<Homework> found;
    for (const auto& one : all) {
        if (!is_of_chart(one, options.chart, chart)) continue;
        if (bars && *bars != chart::Passage{one.from_bar, one.to_bar}) continue;
        if (options.ladder && (one.from_bpm != options.ladder->from.count() ||
                               one.to_bpm != options.ladder->to.count())) {
            continue;
        }
        found.push_back(one);
    }
    return found;
}

[[noreturn]] void refuse_several_pieces(const std::string& place,
                                        const std::vector<Homework>& found) {
    std::vector<std::string> names;
    for (const auto& one : found) {
        names.push_back(fmt::format("--bars {}-{} --ladder {:g}-{:g}", one.from_bar, one.to_bar,
                                    one.from_bpm, one.to_bpm));
    }
    throw BadInput(place, "several pieces of homework were given",
                   "say which: " + text::listed(names, "or"));
}

}  // namespace

std::vector<report::HomeworkSoFar> homework_of(const history::History& history,
                                               const std::string& player) {
    const auto homework = history.homework(player);
    if (homework.empty()) return {};
    return so_far(homework, history.tunes(player));
}

void give_homework(const HomeworkOptions& options, report::WeeksAsked asked) {
    const auto chart = load_chart_file(options.chart);
    const auto wanted = read_homework(options, chart, asked.today);
    const auto [kept, is_new] =
        reading_history([&] { return keep_homework(wanted, kept_chart_of(chart, options.chart)); });
    asked.name_player = asked.name_player || !options.json;  // the pupil's settings may say nothing
    const auto hand =
        options.voicings.guitar.left_handed ? report::Hand::left : report::Hand::right;
    const bool shows_grips = !options.json || options.page.is_asked();
    const report::HomeworkSheet sheet{
        kept.homework, chart.form,
        shows_grips ? grips_for(options, chart, kept.homework) : std::nullopt, hand, is_new};
    if (options.json) {
        fmt::print("{}", report::homework_json({kept}, asked));
    } else {
        print_words(report::homework_text(sheet, asked));
    }
    if (!options.page.is_asked()) return;
    asked.name_player = true;
    save(options.page, report::homework_html(sheet, asked));
}

void take_homework_back(const HomeworkOptions& options) {
    if (options.json) throw BadInput("--take-back and --json: leave out one of them");
    auto history = reading_history([] { return open_history(); });
    const auto found =
        meant(options, history ? history->homework(options.player.text) : std::vector<Homework>{});
    const auto place = spoken_name(options.chart);
    if (found.empty()) {
        throw BadInput(place, "no such homework was given",
                       "compline homework lists what was; --player NAME says whose");
    }
    // The same was given again when it was done: then the newest is meant.
    const auto& newest = found.back();
    if (!std::all_of(found.begin(), found.end(),
                     [&](const auto& one) { return is_the_same(one, newest); })) {
        refuse_several_pieces(place, found);
    }
    history->drop_homework(newest.id);
    fmt::print("Taken back: {}.\n", report::homework_name(newest));
}

}  // namespace compline::app
