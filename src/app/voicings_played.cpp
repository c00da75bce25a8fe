#include "voicings_played.hpp"

#include "voicing_options.hpp"

#include <fmt/format.h>

#include <utility>

namespace compline::app {

Option voicings_option(std::string& words, const std::string& what) {
    return {
        "--voicings", "WISHES",
        what +
            ":\nmixed, shells, guide-tones, one-colour, four-note or rootless, and more as\n"
            "`compline plan` has it, such as \"shells near=5 strings=5432 open\". Default: none",
        &words};
}

std::optional<guitar::VoicingPlan> read_voicings_played(const std::string& words,
                                                        const chart::Form& form,
                                                        const chart::Route& route,
                                                        time::Bpm tempo) {
    if (words.empty()) return std::nullopt;
    const auto asked = read_voicings("--voicings", words);
    try {
        auto plans =
            guitar::plan_voicings(form, route.reach(), tempo, asked.fretboard, asked.wishes);
        return std::move(plans.front());
    } catch (const guitar::PlanningError& error) {
        throw BadInput(fmt::format("--voicings \"{}\": {}", words, error.what()));
    }
}

}  // namespace compline::app
