#include "accidentals.hpp"
#include "command.hpp"
#include "evening.hpp"
#include "evening_gear.hpp"
#include "gear_options.hpp"
#include "kept_options.hpp"
#include "page_file.hpp"
#include "practice_music.hpp"
#include "rules.hpp"
#include "take_history.hpp"

#include <compline/files/file_io.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

struct PracticeOptions {
    PracticeMusic music;
    GearOptions gear;
    bool no_reminders = false;
    bool no_history = false;
    std::string player;
    RuleOptions rules;
    std::string take;
    bool verdicts = false;
    report::View view = report::View::rows;
    bool all = false;
    bool json = false;
    PageFile page;
    std::vector<practice::KeptOption> kept;
    std::vector<std::string> words;  ///< all that was typed
    std::vector<practice::KeptOption> typed;
};

/// What the report suggests itself, and what belongs to this evening alone.
const std::vector<std::string>& not_kept() {
    static const std::vector<std::string> names = {
        "CHART",       "--bars",   "--around", "--weakest",  "--key",  "--transpose",
        "--each-time", "--tempo",  "--times",  "--road-map", "--take", "--all",
        "--json",      "--ladder", "--html",   "--replace"};
    return names;
}

/// What a line to go on with says itself.
const std::vector<std::string>& said_anew() {
    static const std::vector<std::string> names = {"CHART", "--tempo", "--take", "--html",
                                                   "--replace"};
    return names;
}

void read_take_path(const PracticeOptions& options, AskedEvening& evening) {
    if (options.take.empty()) return;
    evening.take = options.take;
    std::error_code unknown;  // then making it says why
    if (std::filesystem::exists(*evening.take, unknown)) {
        throw BadInput(fmt::format("{} is there already: give the take another name",
                                   files::name_of(options.take)));
    }
}

bool is_typed(const PracticeOptions& options, const char* name) {
    return std::any_of(options.typed.begin(), options.typed.end(),
                       [&](const auto& option) { return option.name == name; });
}

void refuse_what_needs_ears(const PracticeOptions& options) {
    if (options.gear.listens()) return;
    const auto refuse = [](const char* option) {
        throw BadInput(fmt::format("{} is of no use with --in none: nobody listens", option));
    };
    if (options.json) refuse("--json");
    if (options.all) refuse("--all");
    if (is_typed(options, "--verdicts")) refuse("--verdicts");
    if (!options.take.empty()) refuse("--take");
    if (options.page.is_asked()) refuse("--html");
    if (options.music.ladder) {
        throw BadInput(
            "--ladder is of no use with --in none: nobody listens; compline render --ladder writes "
            "one to play to");
    }
}

/// Another evening is another take, and another page.
std::vector<std::string> to_be_typed_again(std::vector<std::string> words) {
    for (auto word = words.begin(); word != words.end();) {
        const auto is = [&](const std::string& option) {
            return *word == option || word->rfind(option + "=", 0) == 0;
        };
        const bool has_file = *word == "--take" || *word == "--html";
        const auto next = word + (has_file && word + 1 != words.end() ? 2 : 1);
        word = is("--take") || is("--html") || is("--replace") ? words.erase(word, next) : word + 1;
    }
    return words;
}

AskedEvening read_evening(const PracticeOptions& options) {
    refuse_what_needs_ears(options);
    if (options.music.chart == standard_input) {
        throw BadInput(
            "practice reads your keys from the standard input: give the chart as a file");
    }
    AskedEvening evening = read_music(options.music);
    evening.rules = read_rules(options.rules, evening.map.form(), Unsaid::by_settings);
    evening.player = options.player;
    read_gear(options.gear, evening);
    read_take_path(options, evening);
    evening.verdicts = options.verdicts;
    evening.view = options.view;
    if (options.music.hand.guitar.left_handed) evening.hand = report::Hand::left;
    evening.listing = options.all ? report::Listing::all : report::Listing::one_screen;
    evening.json = options.json;
    evening.page = options.page;
    refuse_taken(evening.page, {options.music.chart, options.take});
    evening.kept = options.kept;
    evening.words = to_be_typed_again(options.words);
    evening.reminders = !options.no_reminders;
    evening.history = !options.no_history;
    evening.typed = options.typed;
    return evening;
}

std::vector<Option> judging(PracticeOptions& options) {
    return joined(
        {options_of(options.rules, ""),
         {{"--all", "", "The report lists every fault.", "as many as fit one screen",
           flag(&options.all)},
          {"--take", "FILE", "File to record to.", "a new one among your takes, named by date",
           file_name(&options.take)},
          as_setting({"--verdicts", "", "Each change is judged as you go.",
                      "your eyes stay on the form", flag(&options.verdicts)}),
          as_setting({"--view", "VIEW",
                      "What the screen shows while you play: rows (of the chart), or large (the\n"
                      "chord, to be read standing). v changes it.",
                      "rows",
                      one_by_name({report::View::rows, report::View::large}, &options.view)}),
          as_setting({"--player", "NAME", "Whose evening it is, kept in the take.", "nobody's",
                      as_typed(&options.player)}),
          {"--json", "", "The report as JSON.", "in words", flag(&options.json)},
          as_opposite_setting({"--no-reminders", "", "Nobody tells you to rest your hand.\n",
                               "after ten minutes of a loop, 45 of an evening",
                               flag(&options.no_reminders)}),
          as_opposite_setting(no_history_option(options.no_history)),
          accidentals_option()}});
}

}  // namespace

ProgramCommand practice_command() {
    const auto options = std::make_shared<PracticeOptions>();
    ProgramCommand command{
        "practice", "Play with the band, be heard, and read how it went",
        remembering(remembering(joined({options_of(options->music),
                                        options_of(options->gear, options->music.hand.guitar),
                                        judging(*options), options_of(options->page)}),
                                not_kept(), &options->kept),
                    said_anew(), &options->typed),
        [options] { return play(read_evening(*options)); },
        "While it plays: space pauses, up and down change the tempo, l loops the row, w\n"
        "goes back to the whole tune (a page-turning pedal does both), d and b send drums\n"
        "and bass out, v shows the chord large or the rows again, Home goes to the top,\n"
        "r starts over, q stops. Set the level of your headphones before you start, and\n"
        "keep it where you could still talk over it."};
    command.hears = [options](const auto& words) { options->words = words; };
    command.settled = wishes_of(options->music.hand);
    command.port = [options] { return input_name(options->gear.in); };
    return command;
}

}  // namespace compline::app
