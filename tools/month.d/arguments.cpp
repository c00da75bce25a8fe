#include "arguments.hpp"

#include <compline/text/numbers.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace compline::month {

namespace {

constexpr const char* purpose =
    "Makes weeks of takes of three pupils: one who gets better, one who does not change, one who "
    "is uneven. Writes takes, the charts they were played to, and what is true of them.";
constexpr int most_weeks = 52;
constexpr int most_sessions = 20000;

int read_whole(const char* option, const std::string& text, int low, int high) {
    const auto number = text::read_count(text);
    if (number && *number >= low && *number <= high) return *number;
    throw CLI::ValidationError(option,
                               fmt::format("found '{}', expected {} to {}", text, low, high));
}

void whole_number(CLI::App& cli, const char* option, const char* help, int high,
                  const std::function<void(int)>& set) {
    cli.add_option_function<std::string>(
           option, [=](const std::string& text) { set(read_whole(option, text, 1, high)); }, help)
        ->type_name("N");
}

}  // namespace

std::optional<Arguments> read_arguments(int argc, char** argv, int& status) {
    Arguments asked;
    asked.weeks.ends = *read_day("2026-11-30");
    CLI::App cli{purpose, "month"};
    cli.add_option("folder", asked.folder, "Folder to write to, made where it is not there")
        ->type_name("FOLDER")
        ->required();
    whole_number(cli, "--weeks", "Weeks of practice, 1 to 52 (5)", most_weeks,
                 [&](int weeks) { asked.weeks.weeks = weeks; });
    whole_number(cli, "--seed", "Another seed, other evenings (1)", 999'999'999,
                 [&](int seed) { asked.weeks.seed = static_cast<std::uint64_t>(seed); });
    whole_number(cli, "--sessions",
                 "So many short takes over three years, 1 to 20000, in place of weeks",
                 most_sessions, [&](int sessions) { asked.sessions = sessions; });
    cli.get_option("--sessions")->excludes(cli.get_option("--weeks"));
    cli.add_option_function<std::string>(
           "--ends",
           [&](const std::string& text) {
               const auto day = read_day(text);
               if (!day) {
                   throw CLI::ValidationError(
                       "--ends",
                       fmt::format("found '{}', expected a day such as 2026-11-30", text));
               }
               asked.weeks.ends = *day;
           },
           "The last day (2026-11-30)")
        ->type_name("DAY");
    try {
        cli.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        status = cli.exit(error) == 0 ? 0 : 2;
        return std::nullopt;
    }
    return asked;
}

}  // namespace compline::month
