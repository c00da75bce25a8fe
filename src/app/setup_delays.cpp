#include "setup_steps.hpp"

#include <compline/live/device_choice.hpp>

#include <algorithm>

namespace compline::app {

namespace {

constexpr const char* later = "later";

/// By one of the ways; then there may be another.
Then measure(const std::string& way, Setup setup) {
    try {
        const auto found = setup.gear.measure_delays(way, setup.answers);
        auto words = found ? found->words : "Left: nothing was measured.";
        while (!words.empty() && words.back() == '\n') words.pop_back();
        setup.talk.tell(words);
        if (found) {
            for (const auto& [key, value] : found->keep) setup.answers.set(key, value);
        }
    } catch (const live::DeviceError& error) {
        setup.talk.tell(error.what());
    }
    return Then::again;
}

bool is_one_given(const SetupAnswers& answers) {
    const std::vector<std::string> keys = {"round-trip", "offset", "string-offsets"};
    return std::any_of(keys.begin(), keys.end(),
                       [&](const auto& key) { return answers.is_given(key); });
}

}  // namespace

const std::vector<std::string>& delay_ways() {
    static const std::vector<std::string> ways = {"wire", "guitar", "click"};
    return ways;
}

std::vector<Question> delays_questions(Setup setup) {
    Question question;
    question.wanted = [setup] { return !is_one_given(setup.answers); };
    question.words = [] {
        return "How late your notes get here can be measured, in three ways:\n"
               "  wire    an output plugged back into an input: the interface's round trip\n"
               "  guitar  the guitar's own sound in the interface beside its MIDI: the pickup\n"
               "  click   you play single notes to a click: what the strings differ by\n"
               "Which now? wire, guitar, click or later";
    };
    question.usual = [] { return later; };
    question.take = [setup](const std::string& answer) {
        auto words = delay_ways();
        words.emplace_back(later);
        const auto way = read_answer(answer, words);
        return words[way] == later ? Then::on : measure(words[way], setup);
    };
    return {question};
}

}  // namespace compline::app
