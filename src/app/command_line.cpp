#include "command_line.hpp"

#include "guitar_options.hpp"
#include "last_evening.hpp"
#include "settings_file.hpp"

#include <compline/report/spoken_date.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <filesystem>
#include <set>

namespace compline::app {

namespace {

constexpr const char* help_word = "help";
constexpr const char* version_flag = "--version";

bool is_option(const std::string& word) { return word.size() > 1 && word.front() == '-'; }

/// `--tempo ""` is a mistake, not the default.
std::string refuse_empty(const std::string& value) {
    return value.empty() ? "there is nothing between the quotes" : "";
}

/// An option on its way: as what CLI11 takes it, and what was typed.
struct Typed {
    const Option* option;
    bool is_there = false;
    std::string value = {};
    std::vector<std::string> values = {};

    void add_to(CLI::App& cli) {
        auto* added = add(cli);
        added->required(option->needed)->check(refuse_empty);
        if (!option->group.empty()) added->group(option->group);
    }

    [[nodiscard]] bool is_given() const { return is_there || !value.empty() || !values.empty(); }

    void read() const {
        const auto& reader = option->reader;
        if (is_there) reader.read(option->name, "");
        if (!value.empty()) reader.read(option->name, value);
        for (const auto& each : values) reader.read(option->name, each);
    }

  private:
    CLI::Option* add(CLI::App& cli) {
        const auto& name = option->name;
        const auto meaning = in_help(*option);
        if (option->reader.takes == ValueReader::Takes::nothing) {
            return cli.add_flag(name, is_there, meaning);
        }
        if (option->reader.takes == ValueReader::Takes::one) {
            return cli.add_option(name, value, meaning)->type_name(option->value);
        }
        auto* added = cli.add_option(name, values, meaning)->type_name(option->value);
        return is_option(name) ? added->expected(1)->take_all() : added;
    }
};

/// A command on its way; its options in their order.
struct TypedCommand {
    const ProgramCommand* command;
    CLI::App* cli;
    std::deque<Typed> options;  // CLI11 keeps the places of what is typed
    bool without_settings = false;
};

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

void add(CLI::App& cli, const ProgramCommand& command, std::deque<TypedCommand>& to) {
    auto& typed = to.emplace_back();
    typed.command = &command;
    typed.cli = cli.add_subcommand(command.name, command.purpose);
    typed.cli->group("Commands")->footer(command.footer);
    for (const auto& option : command.options) typed.options.push_back({&option});
    for (auto& option : typed.options) option.add_to(*typed.cli);
    if (settings_of(command).empty()) return;
    typed.cli->add_flag(no_settings_option, typed.without_settings,
                        "Pass over what your settings say.");
}

/// What is typed, and for the rest what the player's settings say.
void read(const TypedCommand& typed, const std::vector<ProgramCommand>& commands) {
    std::set<std::string> names;
    std::string guitar;
    for (const auto& option : typed.options) {
        option.read();
        if (option.is_given()) names.insert(option.option->name);
        if (option.option->name == guitar_option) guitar = option.value;
    }
    if (settings_of(*typed.command).empty()) return;
    if (typed.without_settings) {
        if (guitar.empty()) return;
        throw BadInput(fmt::format("{} names one of the guitars of your settings: leave out {}",
                                   guitar_option, no_settings_option));
    }
    apply_settings(*typed.command, load_settings(settings_keys(commands)), names, guitar);
}

std::deque<TypedCommand> describe(CLI::App& cli, const std::vector<ProgramCommand>& commands) {
    cli.name("compline");
    cli.description(
        "Drums and bass from a chart, and an honest ear for the guitarist who comps to them.");
    cli.set_version_flag(version_flag, program, "Print the version and stop");
    cli.require_subcommand(0, 1);
    word_help(cli);
    std::deque<TypedCommand> typed;
    for (const auto& command : commands) add(cli, command, typed);
    cli.footer("compline COMMAND --help says more about a command.");
    return typed;
}

std::vector<std::string> names_of(const std::vector<ProgramCommand>& commands) {
    std::vector<std::string> names;
    names.reserve(commands.size());
    for (const auto& command : commands) names.push_back(command.name);
    return names;
}

const ProgramCommand* find(const std::vector<ProgramCommand>& commands, const std::string& name) {
    const auto found =
        std::find_if(commands.begin(), commands.end(),
                     [&](const ProgramCommand& command) { return command.name == name; });
    return found == commands.end() ? nullptr : &*found;
}

/// "See compline render --help."
std::string advice(const ProgramCommand* chosen) {
    return fmt::format("\nSee compline{} --help.", chosen == nullptr ? "" : " " + chosen->name);
}

/// The name of an option without the value that is written to it by "=".
std::string without_value(const std::string& word) { return word.substr(0, word.find('=')); }

std::string no_command(const std::vector<ProgramCommand>& commands, const std::string& word) {
    const auto names = names_of(commands);
    return fmt::format("there is no command {}{}: the commands are {}", text::printable(word),
                       text::did_you_mean(word, names), fmt::join(names, ", "));
}

std::string no_option(const ProgramCommand* chosen, const std::string& word) {
    const auto name = without_value(word);
    std::vector<std::string> names{"--help", "--version"};
    if (chosen != nullptr && !settings_of(*chosen).empty()) names.emplace_back(no_settings_option);
    if (chosen != nullptr) {
        for (const auto& option : chosen->options) {
            if (name == option.formerly) return fmt::format("{} is now {}", name, option.name);
            if (is_option(option.name)) names.push_back(option.name);
        }
    }
    return fmt::format("compline{} has no option {}{}", chosen == nullptr ? "" : " " + chosen->name,
                       text::printable(word), text::did_you_mean(name, names));
}

/// What was typed that nothing takes: the first option rather than a value behind it, but a word in
/// the place of the command before all.
std::string not_taken(const CLI::App& cli, const ProgramCommand* chosen) {
    const auto words = cli.remaining(true);
    const auto option = std::find_if(words.begin(), words.end(), is_option);
    if (chosen != nullptr && option != words.end()) return *option;
    return words.empty() ? "" : words.front();
}

std::string unexpected(const std::vector<ProgramCommand>& commands, const ProgramCommand* chosen,
                       const std::string& word) {
    if (is_option(word)) return no_option(chosen, word);
    if (chosen == nullptr) return no_command(commands, word);
    return fmt::format("compline {} does not know what to do with {}", chosen->name,
                       text::printable(word));
}

/// What is wrong with a command line, in a line.
std::string problem(const CLI::App& cli, const std::vector<ProgramCommand>& commands,
                    const ProgramCommand* chosen, const CLI::ParseError& error) {
    const std::string text = error.what();
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) {
        // "--tempo: 1 required BPM missing"
        return fmt::format("{} takes one value, once", text.substr(0, text.find(':')));
    }
    // A misspelt option often leaves something else missing: it is the better news.
    const auto word = not_taken(cli, chosen);
    const bool extras = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
    return extras || is_option(word) ? unexpected(commands, chosen, word) : text;
}

/// CLI11 takes `--mono=3` and `--mono=true`; a flag has no value.
void refuse_values_of_flags(const ProgramCommand& command, const std::vector<std::string>& words) {
    for (const auto& word : words) {
        if (word == "--") return;
        const auto name = without_value(word);
        if (name == word) continue;
        for (const auto& option : command.options) {
            if (option.name != name || option.reader.takes != ValueReader::Takes::nothing) continue;
            throw BadInput(fmt::format("{} takes no value{}", name, advice(&command)));
        }
    }
}

/// Behind a command too, where no help speaks of it.
bool asks_for_version(const std::vector<std::string>& words) {
    const auto end = std::find(words.begin(), words.end(), "--");
    return std::find(words.begin(), end, version_flag) != end;
}

/// `compline help render` is `compline render --help`.
std::vector<std::string> without_help_word(std::vector<std::string> words) {
    if (words.empty() || words.front() != help_word) return words;
    words.erase(words.begin());
    if (words.size() > 1) {
        throw BadInput(fmt::format("help takes one command{}", advice(nullptr)));
    }
    if (words.empty() || words.front() == help_word) return {"--help"};
    if (!is_option(words.front())) words.emplace_back("--help");
    return words;
}

/// Who types nothing may want to go on where they were; false where nobody was anywhere.
bool offer_last_evening() {
    const auto last = last_evening();
    if (!last) return false;
    std::error_code unknown;
    const auto folder = std::filesystem::current_path(unknown).string();
    fmt::print(
        "You last practised {}, {}. Again:\n\n    {}\n\n"
        "compline --help says what else there is.\n",
        text::printable(last->title), report::spoken_date(last->made), line_again(*last, folder));
    return true;
}

}  // namespace

Status run_command_line(const std::vector<ProgramCommand>& commands, int argc, char** argv) {
    const auto words = without_help_word({argv + std::min(argc, 1), argv + argc});
    const bool names_command = !words.empty() && !is_option(words.front());
    const ProgramCommand* const named = names_command ? find(commands, words.front()) : nullptr;
    if (names_command && named == nullptr) {
        throw BadInput(no_command(commands, words.front()) + advice(nullptr));
    }
    if (named != nullptr && asks_for_version(words)) {
        fmt::print("{}\n", program);
        return Status::done;
    }
    if (named != nullptr) refuse_values_of_flags(*named, words);
    CLI::App cli;
    const auto typed = describe(cli, commands);
    try {
        cli.parse(std::vector<std::string>(words.rbegin(), words.rend()));  // as CLI11 wants them
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return static_cast<Status>(cli.exit(error));
        say(problem(cli, commands, named, error) + advice(named));
        return Status::bad_input;
    }
    const auto chosen = std::find_if(typed.begin(), typed.end(),
                                     [](const TypedCommand& t) { return t.cli->parsed(); });
    if (chosen == typed.end()) {
        if (words.empty() && offer_last_evening()) return Status::done;
        say_as_is(cli.help());
        return Status::bad_input;
    }
    read(*chosen, commands);
    if (chosen->command->hears) chosen->command->hears(words);
    return chosen->command->run();
}

}  // namespace compline::app
