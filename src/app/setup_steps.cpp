#include "setup_steps.hpp"

#include <functional>
#include <iterator>
#include <utility>

namespace compline::app {

namespace {

using StepQuestions = std::vector<Question> (*)(Setup);

const std::vector<std::pair<std::string, StepQuestions>>& steps() {
    static const std::vector<std::pair<std::string, StepQuestions>> all = {
        {"guitar", guitar_questions},         {"output", output_questions},
        {"monitoring", monitoring_questions}, {"input", input_questions},
        {"strings", strings_questions},       {"delays", delays_questions},
        {"pedal", pedal_questions},           {"view", view_questions}};
    return all;
}

}  // namespace

const std::vector<std::string>& step_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all;
        for (const auto& step : steps()) all.push_back(step.first);
        return all;
    }();
    return names;
}

std::vector<Question> questions_of(const std::string& step, Setup setup) {
    std::vector<Question> questions;
    for (const auto& [name, make] : steps()) {
        if (!step.empty() && name != step) continue;
        auto more = make(setup);
        questions.insert(questions.end(), std::make_move_iterator(more.begin()),
                         std::make_move_iterator(more.end()));
    }
    return questions;
}

Question setting_question(Setup setup, const std::string& key, const std::string& words,
                          const std::string& usual) {
    auto& answers = setup.answers;
    Question question;
    question.words = [words] { return words; };
    question.usual = [&answers, key, usual] {
        const auto now = answers.now(key);
        return now.empty() ? usual : now;
    };
    question.take = [&answers, key, usual](const std::string& answer) {
        answers.set(key, answer, usual);
        return Then::on;
    };
    question.wanted = [&answers, key] { return !answers.is_given(key); };
    question.leave = [&answers, key] { answers.leave(key); };
    return question;
}

Question yes_or_no_question(Setup setup, const std::string& key, const std::string& words) {
    auto question = setting_question(setup, key, words, "no");
    question.take = [take = question.take](const std::string& answer) {
        return take(read_yes(answer) ? "yes" : "no");
    };
    return question;
}

}  // namespace compline::app
