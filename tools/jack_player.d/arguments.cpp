#include "arguments.hpp"

#include <compline/text/numbers.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace compline::jack {

namespace {

constexpr const char* purpose =
    "Plays a take to whoever listens on a JACK server, on exact frames counted from the first "
    "count-in click that comes to its inputs, and records from that click on.";

/// A number of seconds, whatever the locale; CLI11's own reading takes "nan".
time::Seconds read_seconds(const std::string& option, const std::string& text) {
    const auto number = text::read_number(text);
    if (number && *number >= 0 && *number <= longest.count()) return time::Seconds(*number);
    throw CLI::ValidationError(
        option, fmt::format("found '{}', expected seconds, 0 to {}", text, longest.count()));
}

/// An option of seconds that sets what `setter` sets.
template <class Setter>
void add_seconds(CLI::App& cli, const std::string& option, const std::string& help, Setter setter) {
    cli.add_option_function<std::string>(
           option,
           [option, setter](const std::string& text) { setter(read_seconds(option, text)); }, help)
        ->type_name("SECONDS");
}

void describe(CLI::App& cli, Arguments& asked) {
    cli.add_option("--take", asked.take, "What to play: a take, or another Standard MIDI File")
        ->type_name("TAKE.mid")
        ->required();
    cli.add_option("--name", asked.name, "The JACK client's name (player)")->type_name("NAME");
    cli.add_option("--to", asked.to, "Connects its MIDI output to the input of such a name")
        ->type_name("PART");
    cli.add_option("--from", asked.from, "Connects its inputs to the outputs of such a name")
        ->type_name("PART");
    cli.add_option("--record", asked.record, "Writes what it hears, from the first click on")
        ->type_name("OUT.wav");
    add_seconds(cli, "--seconds", "How long to record (to a second after the take)",
                [&asked](time::Seconds s) { asked.length = s; });
    add_seconds(cli, "--count-in",
                "From the first click to bar 1 (the lead of a marked take, or 0)",
                [&asked](time::Seconds s) { asked.count_in = s; });
    add_seconds(cli, "--wait", "Longest wait for ports and the first click (60)",
                [&asked](time::Seconds s) { asked.patience = s; });
}

}  // namespace

std::optional<Arguments> read_arguments(int argc, char** argv, int& status) {
    Arguments asked;
    CLI::App cli{purpose, "jack_player"};
    describe(cli, asked);
    try {
        cli.parse(argc, argv);
        return asked;
    } catch (const CLI::ParseError& error) {
        status = cli.exit(error) == 0 ? 0 : 2;
        return std::nullopt;
    }
}

}  // namespace compline::jack
