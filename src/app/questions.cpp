#include "questions.hpp"

#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::app {

namespace {

constexpr const char* go_back = "back";

std::string without_blanks(std::string text) {
    const auto is_blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
    while (!text.empty() && is_blank(text.back())) text.pop_back();
    const auto begin = std::find_if_not(text.begin(), text.end(), is_blank);
    return {begin, text.end()};
}

/// The last of its lines is the one behind which the answer is typed.
void put(const Question& question, const std::string& usual, Talk& talk) {
    const auto words = question.words();
    const auto end = words.rfind('\n');
    if (end != std::string::npos) talk.tell(words.substr(0, end));
    const auto last = end == std::string::npos ? words : words.substr(end + 1);
    talk.ask(usual.empty() ? last + " "
                           : fmt::format("{} [{}] ", last, text::printable_lines(usual)));
}

/// None: nobody answers any more.
std::optional<Then> ask(const Question& question, Talk& talk) {
    const auto usual = question.usual ? question.usual() : std::string();
    put(question, usual, talk);
    auto typed = question.wait ? question.wait(talk) : talk.line();
    if (!typed) return std::nullopt;
    const auto answer = without_blanks(*std::move(typed));
    if (answer == leave_out) {
        if (question.leave) question.leave();
        return Then::on;
    }
    if (text::same_but_for_capitals(answer, go_back)) return Then::back;
    try {
        return question.take(answer.empty() ? usual : answer);
    } catch (const BadInput& bad) {
        talk.tell(bad.what());
        return Then::again;
    }
}

}  // namespace

Conversation hold(const std::vector<Question>& questions, Talk& talk) {
    std::vector<std::size_t> asked;  // before this one
    for (std::size_t at = 0; at < questions.size();) {
        const auto& question = questions[at];
        if (question.wanted && !question.wanted()) {
            ++at;
            continue;
        }
        const auto next = ask(question, talk);
        if (!next) return Conversation::ended;
        if (*next == Then::on) asked.push_back(at++);
        if (*next != Then::back) continue;
        if (asked.empty()) {
            talk.tell("this is the first question: there is none before it");
        } else {
            at = asked.back();
            asked.pop_back();
        }
    }
    return Conversation::held;
}

bool read_yes(const std::string& answer) {
    for (const char* const yes : {"y", "yes"}) {
        if (text::same_but_for_capitals(answer, yes)) return true;
    }
    for (const char* const no : {"n", "no"}) {
        if (text::same_but_for_capitals(answer, no)) return false;
    }
    throw BadInput(text::printable(answer), "", "expected yes or no");
}

std::size_t read_answer(const std::string& answer, const std::vector<std::string>& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (text::same_but_for_capitals(answer, words[i])) return i;
    }
    throw BadInput(
        text::printable(answer), "",
        fmt::format("expected {}{}", text::listed(words, "or"), text::did_you_mean(answer, words)));
}

std::optional<std::size_t> read_choice(const std::string& answer, std::size_t count) {
    const auto number = text::read_count(answer);
    if (!number) return std::nullopt;
    if (*number >= 1 && static_cast<std::size_t>(*number) <= count) {
        return static_cast<std::size_t>(*number);
    }
    throw BadInput(answer, "",
                   count == 1 ? std::string("expected 1: there is one")
                              : fmt::format("expected a number from 1 to {}", count));
}

}  // namespace compline::app
