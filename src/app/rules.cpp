#include "rules.hpp"

#include <compline/listen/pickup_words.hpp>

#include <algorithm>
#include <utility>

namespace compline::app {

namespace {

std::vector<Option> rows_of(Rules& asked, const std::string& otherwise) {
    auto& rules = asked.request;
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
             otherwise + "the chart's, else free", as_given(&asked.rhythm)},
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

Option pushes_row(Rules& asked) {
    const auto off = [&asked](const std::string&, const std::string&) {
        asked.request.pushes = false;
    };
    return {"--no-pushes",
            "",
            "A chord an off-beat early is early.",
            "it is a push, and right",
            {ValueReader::Takes::nothing, off}};
}

/// What is not said in `rules` is as usual; a rhythm where the chart has none.
void fill_in(practice::ScoreRequest& rules, const practice::ScoreRequest& usual) {
    if (!rules.tolerance && !rules.tolerance_auto) rules.tolerance = usual.tolerance;
    if (!rules.strictness) rules.strictness = usual.strictness;
    if (!rules.against) rules.against = usual.against;
    if (!rules.pushes) rules.pushes = usual.pushes;
    if (rules.pickup.empty()) rules.pickup = usual.pickup;
}

bool says_rhythm(const chart::Chart& chart) {
    return chart.rhythm ||
           std::any_of(chart.sections.begin(), chart.sections.end(),
                       [](const auto& section) { return section.rhythm.has_value(); });
}

}  // namespace

std::vector<Option> options_of(RuleOptions& options, const std::string& otherwise) {
    auto rows = rows_of(options.asked, otherwise);
    const auto usual = rows_of(options.usual, "");
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i] = as_setting(std::move(rows[i]), usual[i].reader);
    }
    rows.back() = of_guitar(std::move(rows.back()));  // what its unit is set to
    auto pushes = pushes_row(options.asked);
    pushes.setting = as_opposite_setting(pushes_row(options.usual)).setting;
    rows.push_back(std::move(pushes));
    return rows;
}

practice::ScoreRequest read_rules(const RuleOptions& options, const chart::Form& form,
                                  Unsaid unsaid) {
    auto request = options.asked.request;
    auto rhythm = options.asked.rhythm;
    if (unsaid == Unsaid::by_settings) {
        fill_in(request, options.usual.request);
        if (rhythm.empty() && !says_rhythm(form.chart)) rhythm = options.usual.rhythm;
    }
    if (rhythm.empty()) return request;
    request.rhythm = read_option(rhythm.name, rhythm.text, Echo::value, [&](const auto& text) {
        return assess::read_rhythm(text, form.chart.meter);
    });
    return request;
}

}  // namespace compline::app
