#include "setup_steps.hpp"

namespace compline::app {

namespace {

// What is true of each. A player plays together by ear: what he hears of himself late, he plays
// ahead. Sound takes 2.9 ms a metre (343 m/s in air of 20 degrees).

constexpr const char* by_amplifier =
    "Your own sound reaches you at once (3 ms for each metre to the amplifier), the band a little "
    "late, through the interface: its round trip, once measured, puts that right.";
constexpr const char* by_interface =
    "If your interface passes the guitar on to its headphones directly, you hear yourself at once, "
    "as from an amplifier. If the sound goes through the computer (effects, say), you hear "
    "yourself a round trip late, play that much ahead to be together, and are judged early by it: "
    "switch direct monitoring on while you practise.";
constexpr const char* by_both =
    "Through the computer your sound comes a round trip after the amplifier's: two attacks, and "
    "you cannot know which one you play by. Turn one of them down while you practise, the "
    "computer's if you can.";

const char* advice_for(const std::string& answer) {
    const std::vector<std::string> ways = {"amplifier", "interface", "both"};
    switch (read_answer(answer, ways)) {
        case 0:
            return by_amplifier;
        case 1:
            return by_interface;
        default:
            return by_both;
    }
}

}  // namespace

std::vector<Question> monitoring_questions(Setup setup) {
    Question question;
    question.words = [] {
        return "How do you hear your own guitar: by an amplifier (or its strings), through the\n"
               "interface, or both?";
    };
    question.usual = [] { return "amplifier"; };
    question.take = [&talk = setup.talk](const std::string& answer) {
        talk.tell(advice_for(answer));
        return Then::on;
    };
    return {question};
}

}  // namespace compline::app
