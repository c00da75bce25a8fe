#include "rules.hpp"

#include <compline/listen/pickup_words.hpp>

#include <fmt/format.h>

namespace compline::app {

std::vector<Option> options_of(RuleOptions& options, const std::string& otherwise) {
    return {{"--tolerance", "MS",
             "How far off still counts as in time: 1 to 200 milliseconds, or auto\n"
             "(by tempo: 42 at 132 bpm). Default: " +
                 otherwise + "auto",
             &options.tolerance},
            {"--rhythm", "RHYTHM",
             "What you mean to play: free, four (to the bar), or beats such as\n"
             "\"1 2&\". Default: " +
                 otherwise + "free",
             &options.rhythm},
            {"--strictness", "LEVEL",
             "Which tones are right: written (what the chart says), working (the usual\n"
             "tensions too) or substitutions (tritone substitutes too).\n"
             "Default: " +
                 otherwise + "working",
             &options.strictness},
            {"--against", "WHAT",
             "What in time is measured from: own (from the beat to where you stand beside\n"
             "it by habit) or beat (the beat itself). Default: " +
                 otherwise + "own",
             &options.against},
            {"--midi-pickup", "WORDS",
             "What your unit is set to, where that is not found by itself: mono or poly,\n"
             "from=11 (the first string's channel), low-first, bend=12 (semitones),\n"
             "cycles=1.5 (of its wave, until a pitch is told); and what is left out:\n"
             "ghosts=45, double-triggers=60, flickers=60, lift-offs=30\n"
             "(milliseconds, or off). Default: " +
                 otherwise + "found from what you play",
             &options.pickup}};
}

void read_pickup_option(const std::string& words, listen::Settings& settings) {
    try {
        listen::read_pickup(words, settings);
    } catch (const listen::PickupError& error) {
        throw BadInput(fmt::format("--midi-pickup: {}", error.what()));
    }
}

namespace {

void read_strictness_option(const std::string& level, ScoreRequest& request) {
    if (level.empty()) return;
    request.strictness = harmony::read_strictness(level);
    if (request.strictness) return;
    throw BadInput(
        fmt::format("--strictness {}: expected written, working or substitutions", level));
}

void read_against_option(const std::string& what, ScoreRequest& request) {
    if (what.empty()) return;
    request.against = assess::read_against(what);
    if (request.against) return;
    throw BadInput(fmt::format("--against {}: expected own or beat", what));
}

}  // namespace

void read_rules(const RuleOptions& options, const chart::Form& form, ScoreRequest& request) {
    request.tolerance_auto = options.tolerance == "auto";
    if (!options.tolerance.empty() && !request.tolerance_auto) {
        request.tolerance = time::from_milliseconds(
            read_number("--tolerance", options.tolerance, 1, widest_tolerance_ms));
    }
    listen::Settings checked;
    read_pickup_option(options.pickup, checked);
    request.pickup = options.pickup;
    try {
        if (!options.rhythm.empty()) {
            request.rhythm = assess::read_rhythm(options.rhythm, form.chart.meter);
        }
    } catch (const assess::RhythmError& error) {
        throw BadInput(fmt::format("--rhythm {}: {}", options.rhythm, error.what()));
    }
    read_strictness_option(options.strictness, request);
    read_against_option(options.against, request);
}

}  // namespace compline::app
