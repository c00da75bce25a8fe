#include "device_answer.hpp"
#include "evening.hpp"
#include "setup_steps.hpp"

#include <cctype>
#include <memory>

namespace compline::app {

namespace {

constexpr const char* key = "in";

/// ALSA's numbers behind a name are others tomorrow: "Six Strings MIDI 1 20:0".
std::string lasting_name(const live::MidiInput& input) {
    auto name = full_name(input);
    const auto blank = name.rfind(' ');
    if (input.api != "ALSA" || blank == std::string::npos) return name;
    for (std::size_t i = blank + 1; i < name.size(); ++i) {
        if (name[i] != ':' && std::isdigit(static_cast<unsigned char>(name[i])) == 0) return name;
    }
    return name.substr(0, blank);
}

struct InputStep {
    live::MidiInputs inputs;
};

bool finds_any(Setup setup, InputStep& step) {
    step.inputs = setup.gear.inputs();
    std::erase_if(step.inputs.found,
                  [](const auto& input) { return input.api == live::coarse_jack; });
    if (!step.inputs.found.empty()) return true;
    setup.talk.tell("There is no MIDI input to hear you from:" + reasons(step.inputs.empty) +
                    "\nPlug your MIDI pickup's interface in, then: compline setup input");
    return false;
}

/// The one that is kept, else the one that would be taken.
std::string usual_input(Setup setup, const InputStep& step) {
    auto kept = setup.answers.now(key);
    if (kept == no_input) return kept;
    try {
        return full_name(live::choose_input(step.inputs, kept));
    } catch (const std::runtime_error&) {
        return full_name(step.inputs.found.front());
    }
}

/// Written where another would be taken without it, or none.
Then take_input(Setup setup, const InputStep& step, const std::string& answer) {
    if (answer == no_input) {
        setup.answers.set(key, no_input);
        return Then::on;
    }
    const auto chosen = device_meant(step.inputs.found, answer);
    std::string usual;
    try {
        usual = lasting_name(live::choose_input(step.inputs, ""));
    } catch (const std::runtime_error&) {
        // Several are there: one has to be named.
    }
    setup.answers.set(key, lasting_name(chosen), usual);
    return Then::on;
}

}  // namespace

std::vector<Question> input_questions(Setup setup) {
    const auto step = std::make_shared<InputStep>();
    Question question;
    question.wanted = [setup, step] {
        return !setup.answers.is_given(key) && finds_any(setup, *step);
    };
    question.words = [step] {
        return "Your guitar's MIDI can come in by\n" + numbered_list(step->inputs.found) +
               "By which? a number, a part of the name, or none (the band alone)";
    };
    question.usual = [setup, step] { return usual_input(setup, *step); };
    question.take = [setup, step](const std::string& answer) {
        return take_input(setup, *step, answer);
    };
    question.leave = [setup] { setup.answers.leave(key); };
    return {question};
}

}  // namespace compline::app
