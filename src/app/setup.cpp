#include "command.hpp"
#include "evening.hpp"
#include "guitar_options.hpp"
#include "settings_file.hpp"
#include "setup_end.hpp"
#include "stop_signals.hpp"
#include "terminal_talk.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/live/devices.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace compline::app {

namespace {

/// What may be said without being asked, in the order in which it is asked.
const std::vector<std::string>& keys_said() {
    static const std::vector<std::string> keys = {
        "tuning",     "capo",   "left-handed",    "right-hand", "out",      "in",  "midi-pickup",
        "round-trip", "offset", "string-offsets", "pedal",      "pedal-in", "view"};
    return keys;
}

struct Options {
    std::string step;
    std::string guitar;
    bool yes = false;
    std::vector<std::pair<std::string, std::string>> said;  ///< key and value
};

/// The option as practice has it; its value is kept for the settings. The command that checks it
/// lives on with it.
Option said_for_settings(Option option, const std::shared_ptr<const ProgramCommand>& practice,
                         Options& options) {
    const auto setting = *option.setting;
    const bool is_flag = option.reader.takes == ValueReader::Takes::nothing;
    option.reader.read = [setting, is_flag, practice, &options](const std::string& name,
                                                                const std::string& text) {
        if (!is_flag) setting.read(name, text);
        options.said.emplace_back(setting.key, is_flag ? "yes" : text);
    };
    option.setting.reset();
    option.usual = "you are asked";
    return option;
}

std::vector<Option> options_said(Options& options) {
    const auto practice = std::make_shared<const ProgramCommand>(practice_command());
    const auto rows = settings_of(*practice);
    std::vector<Option> said;
    for (const auto& key : keys_said()) {
        const auto row = std::find_if(rows.begin(), rows.end(),
                                      [&](const Option& one) { return one.setting->key == key; });
        if (row != rows.end()) said.push_back(said_for_settings(*row, practice, options));
    }
    return said;
}

void say_next_line(const SetupAnswers& answers) {
    const bool listens = answers.now("in") != no_input;
    say_as_is(
        fmt::format("\nNext, a chart of your own and the band to it:\n\n"
                    "    compline new mine\n"
                    "    compline practice mine.yaml{}\n\n"
                    "To do a step again, compline setup and one of\n"
                    "    {}\n",
                    listens ? "" : " --in none", fmt::join(step_names(), ", ")));
}

void say_written(const SetupAnswers& answers) {
    say(fmt::format("Written to {}:", path_of_settings().string()));
    for (const auto& line : answers.changes()) say("  " + line);
}

/// Devices that are named are there.
void refuse_unknown_devices(const SetupAnswers& answers) {
    if (answers.is_given("out")) {
        (void)live::choose_output(live::audio_outputs(), answers.now("out"));
    }
    if (!answers.is_given("in")) return;
    const auto in = answers.now("in");
    if (is_sound(in)) {
        (void)live::choose_sound_input(live::sound_inputs(), behind_sound(in), "--in sound:");
    } else if (in != no_input) {
        (void)live::choose_input(live::midi_inputs(), in);
    }
}

Status set_up_unasked(SetupAnswers& answers) {
    refuse_unknown_devices(answers);
    if (answers.changes().empty()) {
        say("Nothing differs from what is usual, or stands in your settings already.");
    } else {
        answers.write();
        say_written(answers);
    }
    say_next_line(answers);
    return Status::done;
}

Status stopped(Talk& talk, bool written) {
    talk.tell(written ? "Stopped." : "Stopped: nothing was written.");
    const bool nobody_there = !stop_was_asked() && ::isatty(STDIN_FILENO) == 0;
    if (!nobody_there) return Status::done;
    throw BadInput(
        "the questions were not answered to their end: say by options what differs from what is "
        "usual, and --yes");
}

Status set_up_by_questions(const Options& options, SetupAnswers& answers) {
    bool together = false;
    bool written = false;
    {
        const StopSignals signals;
        TerminalTalk talk(STDIN_FILENO);
        const auto gear = real_gear();
        const Setup setup{answers, *gear, talk, !options.step.empty()};
        auto questions = questions_of(options.step, setup);
        questions.push_back(write_question(setup, &written));
        if (options.step.empty()) questions.push_back(together_question(setup, &together));
        talk.tell(
            "Enter takes what stands in brackets; - leaves a question out; back goes to the one "
            "before. Nothing is written until you say yes at the end; Ctrl-C stops.\n");
        if (hold(questions, talk) == Conversation::ended) return stopped(talk, written);
        talk.tell(written ? "Written." : "Nothing new is written: your settings stay as they are.");
    }
    if (!options.step.empty()) return Status::done;
    const auto status =
        together ? practise_together(answers, options.guitar, written) : Status::done;
    say_next_line(answers);
    return status;
}

Status set_up(const Options& options) {
    if (!options.step.empty()) (void)read_word("setup", options.step, step_names());
    if (options.yes && !options.step.empty()) {
        throw BadInput("--yes asks no question: leave out the step, or --yes");
    }
    SetupAnswers answers(options.guitar);
    for (const auto& [key, value] : options.said) answers.give(key, value);
    return options.yes ? set_up_unasked(answers) : set_up_by_questions(options, answers);
}

}  // namespace

ProgramCommand setup_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> first = {
        {"STEP", "",
         fmt::format("One step alone, to do it again: {}", fmt::join(step_names(), ", ")), "",
         as_typed(&options->step)},
        {"--yes", "", "No question is asked: options are taken, the rest stays as it is.",
         "you are asked", flag(&options->yes)},
        {guitar_option, "NAME", "The guitar whose own settings these are.",
         "the settings' one, else they hold for all", as_typed(&options->guitar)}};
    return {"setup", "From a new guitar to a first verdict: devices, strings, pedal, delays",
            joined({first, options_said(*options)}), [options] { return set_up(*options); },
            "Set the level of your headphones low before the band plays."};
}

}  // namespace compline::app
