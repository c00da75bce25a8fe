#include "device_answer.hpp"
#include "evening.hpp"
#include "setup_steps.hpp"

#include <cctype>
#include <memory>
#include <vector>

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

/// The guitar by its MIDI and, where that is not there, by its sound.
struct InputStep {
    live::MidiInputs inputs;
    std::vector<live::MidiInput> sounds;  ///< as --in names them

    [[nodiscard]] std::vector<live::MidiInput> all() const {
        auto all = inputs.found;
        all.insert(all.end(), sounds.begin(), sounds.end());
        return all;
    }
};

void find_sounds(Setup setup, InputStep& step) {
    step.sounds.clear();
    for (const auto& input : setup.gear.sound_inputs().found) {
        step.sounds.push_back({live::sound_prefix + input.api, input.name});
    }
}

bool finds_any(Setup setup, InputStep& step) {
    step.inputs = setup.gear.inputs();
    std::erase_if(step.inputs.found,
                  [](const auto& input) { return input.api == live::coarse_jack; });
    find_sounds(setup, step);
    if (!step.inputs.found.empty()) return true;
    setup.talk.tell("There is no MIDI input to hear you from:" + reasons(step.inputs.empty) +
                    "\nPlug your MIDI pickup's interface in, then: compline setup input");
    return !step.sounds.empty();
}

std::string list(const InputStep& step) {
    const auto midi = step.inputs.found.size();
    std::string words;
    if (midi > 0) words = "Your guitar's MIDI can come in by\n" + numbered_list(step.inputs.found);
    if (!step.sounds.empty()) {
        words += "Its sound can be heard instead: your time alone is judged then, no tones\n" +
                 numbered_list(step.sounds, midi);
    }
    return words + "By which? a number, a part of the name, or none (the band alone)";
}

/// The one that is kept, else the one that would be taken.
std::string usual_input(Setup setup, const InputStep& step) {
    auto kept = setup.answers.now(key);
    if (kept == no_input || is_sound(kept)) return kept;
    if (step.inputs.found.empty()) return leave_out;
    try {
        return full_name(live::choose_input(step.inputs, kept));
    } catch (const std::runtime_error&) {
        return full_name(step.inputs.found.front());
    }
}

Then leave_as_it_is(Setup setup) {
    setup.answers.leave(key);
    return Then::on;
}

/// Written where another would be taken without it, or none.
Then take_input(Setup setup, const InputStep& step, const std::string& answer) {
    if (answer == no_input) {
        setup.answers.set(key, no_input);
        return Then::on;
    }
    if (answer == leave_out) return leave_as_it_is(setup);
    const auto chosen = device_meant(step.all(), answer);
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
    question.words = [step] { return list(*step); };
    question.usual = [setup, step] { return usual_input(setup, *step); };
    question.take = [setup, step](const std::string& answer) {
        return take_input(setup, *step, answer);
    };
    question.leave = [setup] { setup.answers.leave(key); };
    return {question};
}

}  // namespace compline::app
