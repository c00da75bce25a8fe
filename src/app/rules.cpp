#include "rules.hpp"

#include <compline/listen/pickup_words.hpp>

#include <fmt/format.h>

namespace compline::app {

std::vector<Option> options_of(RuleOptions& options, const std::string& otherwise) {
    auto& rules = options.rules;
    const auto tolerance = [&rules](const std::string& name, const std::string& text) {
        rules.tolerance_auto = text == "auto";
        if (rules.tolerance_auto) return;
        rules.tolerance = time::from_milliseconds(
            read_number(name, text, assess::narrowest_tolerance_ms, assess::widest_tolerance_ms));
    };
    return {{"--tolerance",
             "MS",
             "How far off still counts as in time: 1 to 200 milliseconds, or auto\n"
             "(by tempo: 42 at 132 bpm).",
             otherwise + "auto",
             {ValueReader::Takes::one, tolerance}},
            {"--rhythm", "RHYTHM",
             "What you mean to play: free, four (to the bar), or beats such as\n"
             "\"1 2&\".",
             otherwise + "the chart's, else free", as_typed(&options.rhythm)},
            {"--strictness", "LEVEL",
             "Which tones are right: written (what the chart says), working (the usual\n"
             "tensions too) or substitutions (tritone substitutes too).\n",
             otherwise + "working", strictness_reader(&rules.strictness)},
            {"--against", "WHAT",
             "What in time is measured from: own (from the beat to where you stand beside\n"
             "it by habit) or beat (the beat itself).",
             otherwise + "own",
             one_by_name({assess::Against::own, assess::Against::beat}, &rules.against)},
            {"--midi-pickup", "WORDS",
             "What your unit is set to, where that is not found by itself: mono or poly,\n"
             "from=11 (the first string's channel), low-first, bend=12 (semitones),\n"
             "cycles=1.5 (of its wave, until a pitch is sent); and what is left out:\n"
             "ghosts=45, double-triggers=60, flickers=60, lift-offs=30\n"
             "(milliseconds, or off).",
             otherwise + "found from what you play",
             read_by(
                 [&rules](const auto& text) {
                     listen::PickupSettings checked;
                     listen::read_pickup(text, checked);
                     rules.pickup = text;  // read again over what a take says of its own
                 },
                 Echo::value)}};
}

practice::ScoreRequest read_rules(const RuleOptions& options, const chart::Form& form) {
    auto request = options.rules;
    if (!options.rhythm.empty()) {
        request.rhythm = read_option(
            "--rhythm", options.rhythm, Echo::value,
            [&](const auto& text) { return assess::read_rhythm(text, form.chart.meter); });
    }
    return request;
}

}  // namespace compline::app
