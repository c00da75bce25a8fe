#include "usage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::app {

namespace {

std::string names_of_commands(const CLI::App& cli) {
    std::string names;
    for (const auto* command : cli.get_subcommands([](const CLI::App*) { return true; })) {
        names += (names.empty() ? "" : ", ") + command->get_name();
    }
    return names;
}

bool is_option(const std::string& word) { return word.size() > 1 && word.front() == '-'; }

/// What was typed that nothing takes; an option rather than the value behind it.
std::string not_taken(const CLI::App& cli) {
    const auto words = cli.remaining(true);
    const auto option = std::find_if(words.begin(), words.end(), is_option);
    if (option != words.end()) return *option;
    return words.empty() ? "" : words.front();
}

std::string unexpected(const CLI::App& cli, const std::string& word) {
    const auto chosen = cli.get_subcommands();
    const bool option = is_option(word);
    if (chosen.empty() && !option) {
        return fmt::format("there is no command {}: the commands are {}", word,
                           names_of_commands(cli));
    }
    const auto who = chosen.empty() ? "compline" : "compline " + chosen.front()->get_name();
    if (option) return fmt::format("{} has no option {}", who, word);
    return fmt::format("{} does not know what to do with {}", who, word);
}

}  // namespace

void word_help(CLI::App& cli) {
    constexpr std::size_t left_column = 22;
    auto formatter = cli.get_formatter();
    formatter->column_width(left_column);
    formatter->label("SUBCOMMAND", "COMMAND");
    formatter->label("Positionals", "Needed");
    formatter->label("REQUIRED", "(needed)");
    cli.set_help_flag("-h,--help", "Print this help and stop");
}

void settle_commands(CLI::App& cli) {
    const auto check = [](const std::string& value) {
        return value.empty() ? std::string("there is nothing between the quotes") : std::string();
    };
    for (auto* command : cli.get_subcommands([](const CLI::App*) { return true; })) {
        command->group("Commands");
        for (auto* option : command->get_options()) option->check(check);
    }
}

std::string usage_problem(const CLI::App& cli, const CLI::ParseError& error) {
    const auto chosen = cli.get_subcommands();
    const auto advice = fmt::format("See compline{} --help.",
                                    chosen.empty() ? "" : " " + chosen.front()->get_name());
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) {
        const std::string text = error.what();  // "--tempo: 1 required BPM missing"
        return fmt::format("{} takes one value, once\n{}", text.substr(0, text.find(':')), advice);
    }
    // A misspelt option often leaves something else missing: it is the better news.
    const auto word = not_taken(cli);
    const bool extras = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
    const std::string what =
        extras || is_option(word) ? unexpected(cli, word) : std::string(error.what());
    return what + "\n" + advice;
}

}  // namespace compline::app
