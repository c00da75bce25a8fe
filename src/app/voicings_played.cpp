#include "voicings_played.hpp"

#include "planning.hpp"

#include <compline/practice/ladder.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::app {

Option voicings_option(AsGiven& words, const std::string& what) {
    return {"--voicings", "WISHES",
            what +
                ":\nmixed, shells, guide-tones, one-colour, four-note or rootless, and more as\n"
                "`compline plan` has it, such as \"shells near=5 strings=5432 open\".",
            "none", as_given(&words)};
}

chart::Passage reach_of(const roadmap::RoadMap& map) {
    auto reach = map.way().reach();
    if (!map.asked().ladder) return reach;
    const auto around =
        practice::once_around(map.form(), map.asked().way.reach()).stretches.front().passage;
    return {std::min(reach.from, around.from), std::max(reach.to, around.to)};
}

guitar::VoicingPlan plan_played(const std::string& place, const roadmap::RoadMap& map,
                                const GuitarAndWishes& asked) {
    auto plans = plan_for_player(
        place, {map.form(), reach_of(map), map.tempo(), asked.fretboard, asked.wishes});
    return std::move(plans.front());
}

std::optional<guitar::VoicingPlan> read_voicings_played(const AsGiven& words,
                                                        const roadmap::RoadMap& map,
                                                        const VoicingOptions& usual) {
    if (words.empty()) return std::nullopt;
    return plan_played(text::option_place(words.name, words.text), map,
                       read_voicings(words.name, words.text, usual));
}

}  // namespace compline::app
