#include "hand_played.hpp"

#include "voicings_played.hpp"

#include <compline/guitar/near_grips.hpp>
#include <compline/text/bad_input.hpp>

namespace compline::app {

namespace {

constexpr const char* voicings_name = "--voicings";

}  // namespace

std::vector<Option> options_of(HandOptions& options) {
    return {{"--hand", "",
             "How far your hand went, beside a plan of voicings: where it went further,\n"
             "which grip lay nearer, which finger could have stayed.",
             "left out", flag(&options.shown)},
            {voicings_name, "WISHES",
             "The plan that your hand is set beside, as `compline practice` takes it,\n"
             "such as \"shells near=5\".\n",
             "that which you played by, else mixed", as_given(&options.voicings)}};
}

std::vector<Option> settled(HandOptions& options) { return wishes_of(options.usual); }

practice::HandAgainstPlan hand_played(const practice::Report& report, const HandOptions& options) {
    const bool typed = !options.voicings.empty();
    const auto words = typed ? options.voicings.text : report.voicings;
    const auto& guitar = report.heard.fretboard;
    const auto asked = read_voicings_on(guitar, voicings_name, words, options.usual, typed);
    const auto place = words.empty() ? "--hand" : text::option_place(voicings_name, words);
    const auto plan = plan_played(place, report.map, asked);
    guitar::NearGrips near(report.map.form(), plan.passage, guitar, asked.wishes);
    auto hand = practice::hand_against_plan(report, plan, &near);
    hand.voicings = words;
    return hand;
}

std::optional<guitar::VoicingPlan> voicings_shown(const practice::Report& report,
                                                  const HandOptions& options) {
    if (report.voicings.empty()) return std::nullopt;
    const auto asked = read_voicings_on(report.heard.fretboard, voicings_name, report.voicings,
                                        options.usual, false);
    return plan_played(text::option_place(voicings_name, report.voicings), report.map, asked);
}

}  // namespace compline::app
