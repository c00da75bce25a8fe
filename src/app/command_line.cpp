#include "command_line.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>

namespace compline::app {

namespace {

bool is_option(const std::string& word) { return word.size() > 1 && word.front() == '-'; }

/// `--tempo ""` is a mistake, not the default.
std::string refuse_empty(const std::string& value) {
    return value.empty() ? "there is nothing between the quotes" : "";
}

/// Hands an option over as what its place takes.
struct Adder {
    CLI::App& cli;
    const Option& option;

    CLI::Option* operator()(bool* place) const {
        return cli.add_flag(option.name, *place, option.meaning);
    }
    CLI::Option* operator()(std::string* place) const {
        return cli.add_option(option.name, *place, option.meaning)->type_name(option.value);
    }
    CLI::Option* operator()(std::vector<std::string>* place) const {
        auto* added = cli.add_option(option.name, *place, option.meaning)->type_name(option.value);
        return is_option(option.name) ? added->expected(1)->take_all() : added;
    }
};

void add(CLI::App& cli, const Option& option) {
    auto* added = std::visit(Adder{cli, option}, option.place);
    added->required(option.needed)->check(refuse_empty);
    if (!option.group.empty()) added->group(option.group);
}

void add(CLI::App& cli, const Command& command) {
    auto* added = cli.add_subcommand(command.name, command.purpose);
    added->group("Commands")->footer(command.footer);
    for (const auto& option : command.options) add(*added, option);
}

/// Sets how help is worded, for the program and the commands added to it afterwards.
void word_help(CLI::App& cli) {
    constexpr std::size_t left_column = 22;
    auto formatter = cli.get_formatter();
    formatter->column_width(left_column);
    formatter->label("SUBCOMMAND", "COMMAND");
    formatter->label("Positionals", "Needed");
    formatter->label("REQUIRED", "(needed)");
    cli.set_help_flag("-h,--help", "Print this help and stop");
}

void describe(CLI::App& cli, const std::vector<Command>& commands) {
    cli.name("compline");
    cli.description(
        "Drums and bass from a chart, and an honest ear for the guitarist who comps to them.");
    cli.set_version_flag("--version", "compline " COMPLINE_VERSION, "Print the version and stop");
    cli.require_subcommand(0, 1);
    word_help(cli);
    for (const auto& command : commands) add(cli, command);
    cli.footer("compline COMMAND --help says more about a command.");
}

std::string names_of(const std::vector<Command>& commands) {
    std::string names;
    for (const auto& command : commands) names += (names.empty() ? "" : ", ") + command.name;
    return names;
}

/// What was typed that nothing takes; an option rather than the value behind it.
std::string not_taken(const CLI::App& cli) {
    const auto words = cli.remaining(true);
    const auto option = std::find_if(words.begin(), words.end(), is_option);
    if (option != words.end()) return *option;
    return words.empty() ? "" : words.front();
}

/// chosen: the command's name, empty without one.
std::string unexpected(const std::vector<Command>& commands, const std::string& chosen,
                       const std::string& word) {
    const bool option = is_option(word);
    if (chosen.empty() && !option) {
        return fmt::format("there is no command {}: the commands are {}", word, names_of(commands));
    }
    const auto who = chosen.empty() ? "compline" : "compline " + chosen;
    if (option) return fmt::format("{} has no option {}", who, word);
    return fmt::format("{} does not know what to do with {}", who, word);
}

/// What is wrong with a command line, in a line or two, and where to read on.
std::string problem(const CLI::App& cli, const std::vector<Command>& commands,
                    const CLI::ParseError& error) {
    const auto parsed = cli.get_subcommands();
    const std::string chosen = parsed.empty() ? "" : parsed.front()->get_name();
    const auto advice = fmt::format("See compline{} --help.", chosen.empty() ? "" : " " + chosen);
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) {
        const std::string text = error.what();  // "--tempo: 1 required BPM missing"
        return fmt::format("{} takes one value, once\n{}", text.substr(0, text.find(':')), advice);
    }
    if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr) {
        const std::string text = error.what();  // "Could not convert: --json = maybe"
        const auto name = text.substr(std::min(text.find("--"), text.size()));
        return fmt::format("{} takes no value\n{}", name.substr(0, name.find(' ')), advice);
    }
    // A misspelt option often leaves something else missing: it is the better news.
    const auto word = not_taken(cli);
    const bool extras = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
    const std::string what =
        extras || is_option(word) ? unexpected(commands, chosen, word) : std::string(error.what());
    return what + "\n" + advice;
}

}  // namespace

Status run_command_line(const std::vector<Command>& commands, int argc, char** argv) {
    CLI::App cli;
    describe(cli, commands);
    try {
        cli.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return static_cast<Status>(cli.exit(error));
        say(problem(cli, commands, error));
        return Status::bad_input;
    }
    const auto chosen = cli.get_subcommands();
    if (chosen.empty()) {
        say_as_is(cli.help());
        return Status::bad_input;
    }
    const auto command = std::find_if(
        commands.begin(), commands.end(),
        [&](const Command& candidate) { return candidate.name == chosen.front()->get_name(); });
    return command->run();
}

}  // namespace compline::app
