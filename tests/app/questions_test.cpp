// A conversation at a terminal: asked in order, left out, gone back to, asked again.

#include "../../src/app/questions.hpp"

#include "app/program.hpp"
#include "app/scripted_talk.hpp"
#include "support/catch.hpp"
#include "support/refusal.hpp"

using namespace compline;
using app::Conversation;
using app::Question;
using app::Then;
using tests::contains;
using tests::ScriptedTalk;

namespace {

/// Two questions, and what was answered.
struct TwoQuestions {
    std::string strings = "nothing";
    std::string capo = "nothing";

    [[nodiscard]] std::vector<Question> questions() {
        Question first;
        first.words = [] { return "A guitar:\nhow many strings?"; };
        first.usual = [] { return "6"; };
        first.take = [this](const std::string& answer) {
            strings = std::to_string(app::read_whole_number("strings", answer, 4, 8));
            return Then::on;
        };
        first.leave = [this] { strings = "left"; };
        Question second;
        second.words = [] { return "Which fret?"; };
        second.take = [this](const std::string& answer) {
            capo = answer;
            return Then::on;
        };
        return {first, second};
    }
    std::string hold(ScriptedTalk talk) {
        const bool held = app::hold(questions(), talk) == Conversation::held;
        return (held ? strings + " " + capo : "ended " + strings + " " + capo) +
               (talk.left() > 0 ? " too soon" : "");
    }
};

std::string answers(const std::deque<std::string>& lines) {
    return TwoQuestions().hold(ScriptedTalk(lines));
}

}  // namespace

TEST_CASE("Enter takes what stands in brackets, and blanks around an answer do not count") {
    CHECK(answers({"", "3"}) == "6 3");
    CHECK(answers({" 7 ", "\t3\r"}) == "7 3");
    CHECK(answers({"", ""}) == "6 ");
    ScriptedTalk talk({"", ""});
    TwoQuestions two;
    (void)app::hold(two.questions(), talk);
    CHECK(talk.said == "A guitar:\nhow many strings? [6] \nWhich fret? \n");
}

TEST_CASE("a question is left out by a dash, and gone back to by the word back") {
    CHECK(answers({"-", "3"}) == "left 3");
    CHECK(answers({"7", "-"}) == "7 nothing");
    CHECK(answers({"7", "back", "8", "3"}) == "8 3");
    CHECK(answers({"7", "BACK", "-", "3"}) == "left 3");
    ScriptedTalk talk({"back", "7", "3"});
    TwoQuestions two;
    CHECK(app::hold(two.questions(), talk) == Conversation::held);
    CHECK(contains(talk.said, "this is the first question"));
}

TEST_CASE("what is no answer is told what would be one, and asked again") {
    CHECK(answers({"many", "12", "7", "3"}) == "7 3");
    ScriptedTalk talk({"many", "7", "3"});
    TwoQuestions two;
    (void)app::hold(two.questions(), talk);
    CHECK(contains(talk.said, "strings many: expected a number from 4 to 8\nA guitar:\n"));
}

TEST_CASE("who stops answering ends the questions") {
    CHECK(answers({}) == "ended nothing nothing");
    CHECK(answers({"7"}) == "ended 7 nothing");
    CHECK(answers({"many"}) == "ended nothing nothing");
}

TEST_CASE("a question that is not wanted is not asked, and back passes it over too") {
    std::string heard;
    const auto question = [&](const std::string& name, bool wanted) {
        Question one;
        one.words = [name] { return name; };
        one.wanted = [wanted] { return wanted; };
        one.take = [&heard, name](const std::string& answer) {
            heard += name + "=" + answer + " ";
            return Then::on;
        };
        return one;
    };
    ScriptedTalk talk({"1", "back", "2", "3"});
    CHECK(app::hold({question("a", true), question("b", false), question("c", true)}, talk) ==
          Conversation::held);
    CHECK(heard == "a=1 a=2 c=3 ");
}

TEST_CASE("an answer can ask for the same question again, or the one before") {
    std::string heard;
    Question first;
    first.words = [] { return "first?"; };
    first.take = [&](const std::string& answer) {
        heard += answer;
        return Then::on;
    };
    Question second = first;
    second.take = [&](const std::string& answer) {
        heard += answer;
        return answer == "louder" ? Then::again : answer == "no" ? Then::back : Then::on;
    };
    ScriptedTalk talk({"1", "louder", "louder", "no", "2", "yes"});
    CHECK(app::hold({first, second}, talk) == Conversation::held);
    CHECK(heard == "1louderlouderno2yes");
}

TEST_CASE("yes and no may be short, and a number means one that there is") {
    CHECK(app::read_yes("y"));
    CHECK(app::read_yes("YES"));
    CHECK_FALSE(app::read_yes("N"));
    CHECK_FALSE(app::read_yes("no"));
    CHECK(tests::refusal([] { (void)app::read_yes("maybe"); }) == "maybe: expected yes or no");
    CHECK(app::read_choice("2", 3) == 2);
    CHECK(app::read_choice("USB", 3) == std::nullopt);
    CHECK(tests::refusal([] { (void)app::read_choice("4", 3); }) ==
          "4: expected a number from 1 to 3");
    CHECK(tests::refusal([] { (void)app::read_choice("0", 1); }) == "0: expected 1: there is one");
}
