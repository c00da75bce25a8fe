#include "setup_end.hpp"

#include "command_line.hpp"
#include "evening.hpp"
#include "guitar_options.hpp"
#include "settings_file.hpp"

#include <fmt/format.h>

#include <vector>

namespace compline::app {

namespace {

bool is_described(const std::string& guitar) {
    return load_settings(settings_keys(all_commands())).guitar(guitar) != nullptr;
}

}  // namespace

Question write_question(Setup setup, bool* written) {
    Question question;
    question.wanted = [setup] { return !setup.answers.changes().empty(); };
    question.words = [setup] {
        std::string text = "This is new:\n";
        for (const auto& line : setup.answers.changes()) text += "  " + line + "\n";
        return text + fmt::format("Write it to {}? yes or no", path_of_settings().string());
    };
    question.usual = [] { return "yes"; };
    question.take = [setup, written](const std::string& answer) {
        if (!read_yes(answer)) return Then::on;
        setup.answers.write();
        *written = true;
        return Then::on;
    };
    return question;
}

Question together_question(Setup setup, bool* together) {
    Question question;
    question.words = [] {
        return fmt::format("Now {} with the band, once through? yes or no", first_changes);
    };
    question.usual = [] { return "yes"; };
    question.wanted = [setup] {
        const auto in = setup.answers.now("in");
        return in != no_input && (is_sound(in) || !setup.gear.inputs().found.empty()) &&
               !setup.gear.outputs().found.empty();
    };
    question.take = [together](const std::string& answer) {
        *together = read_yes(answer);
        return Then::on;
    };
    return question;
}

std::vector<std::string> words_to_practise(const SetupAnswers& answers, const std::string& guitar,
                                           bool written) {
    std::vector<std::string> words = {"practice", "--changes", first_changes, "--times", "1"};
    if (!guitar.empty() && is_described(guitar)) {
        words.insert(words.end(), {guitar_option, guitar});
    }
    if (written) return words;
    for (const std::string key : {"out", "in", "midi-pickup", "tuning", "capo", "frets",
                                  "round-trip", "offset", "string-offsets"}) {
        const auto value = answers.now(key);
        if (!value.empty()) words.insert(words.end(), {"--" + key, value});
    }
    return words;
}

Status practise_together(const SetupAnswers& answers, const std::string& guitar, bool written) {
    auto words = words_to_practise(answers, guitar, written);
    words.insert(words.begin(), "compline");
    std::vector<char*> argv;
    argv.reserve(words.size());
    for (auto& word : words) argv.push_back(word.data());
    return run_command_line(all_commands(), static_cast<int>(argv.size()), argv.data());
}

}  // namespace compline::app
