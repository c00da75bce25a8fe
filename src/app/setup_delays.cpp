#include "setup_steps.hpp"

#include <fmt/format.h>

namespace compline::app {

namespace {

/// Measures by one of the ways; what it finds becomes answers.
Then measure(const std::string& way, Setup setup) {
    setup.talk.tell(fmt::format("When this is over: compline calibrate {}", way));
    return Then::on;
}

}  // namespace

std::vector<Question> delays_questions(Setup setup) {
    Question question;
    question.words = [] {
        return "How late your notes get here can be measured, in three ways:\n"
               "  wire   an output plugged back into an input: the interface's round trip\n"
               "  sound  the guitar's own sound in the interface beside its MIDI: the pickup\n"
               "  click  you play single notes to a click: differences between the strings\n"
               "Which now? wire, sound, click or later";
    };
    question.usual = [] { return "later"; };
    question.take = [setup](const std::string& answer) {
        static const std::vector<std::string> ways = {"wire", "sound", "click", "later"};
        const auto way = read_answer(answer, ways);
        return way == 3 ? Then::on : measure(ways[way], setup);
    };
    return {question};
}

}  // namespace compline::app
