#include "arguments.hpp"

#include <compline/text/numbers.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <vector>

namespace compline::rough {

namespace {

using simulate::Roughness;

constexpr const char* purpose =
    "Makes of a clean take (note-ons and note-offs, channel 1 = string 1) what a real MIDI pickup "
    "would have sent. Everything is off unless asked for; a share is 0 (never) to 1 (wherever it "
    "can be).";

struct NumberOption {
    const char* name;
    const char* help;
    double low;
    double high;
    std::function<void(Roughness&, double)> set;
};

std::vector<NumberOption> number_options() {
    using R = Roughness;
    const auto ms = [](double x) { return time::from_milliseconds(x); };
    return {
        {"--delay", "Time to find a note, ms", 0, 100,
         [=](R& r, double x) { r.delay.constant = ms(x); }},
        {"--cycles", "... and cycles of it", 0, 10, [](R& r, double x) { r.delay.cycles = x; }},
        {"--scatter", "... and its standard deviation, ms", 0, 20,
         [=](R& r, double x) { r.scatter = ms(x); }},
        {"--velocity-sd", "Standard deviation of velocities", 0, 40,
         [](R& r, double x) { r.velocity_sd = x; }},
        {"--ghosts", "Share of notes beside which an unplayed string speaks", 0, 1,
         [](R& r, double x) { r.ghosts = x; }},
        {"--double-triggers", "Share of notes sent twice", 0, 1,
         [](R& r, double x) { r.double_triggers = x; }},
        {"--flickers", "Share of notes that begin an octave or a twelfth off", 0, 1,
         [](R& r, double x) { r.flickers = x; }},
        {"--lift-offs", "Share of notes after which the open string rings", 0, 1,
         [](R& r, double x) { r.lift_offs = x; }},
        {"--slides", "Share of the shifts of a grip sent as slides", 0, 1,
         [](R& r, double x) { r.slides = x; }},
        {"--bend-range", "Semitones of a full bend (2)", 1, 24,
         [](R& r, double x) { r.bend_range = x; }},
        {"--vibrato", "Share of long notes that sway", 0, 1, [](R& r, double x) { r.vibrato = x; }},
        {"--dropped", "Share of the softest fifth of the notes that never come", 0, 1,
         [](R& r, double x) { r.dropped = x; }},
        {"--lost-offs", "Share of notes whose note-off never comes", 0, 1,
         [](R& r, double x) { r.lost_offs = x; }},
        {"--late-offs", "Share of bound notes whose note-off comes late", 0, 1,
         [](R& r, double x) { r.late_offs = x; }},
        {"--first-channel", "Channel of the first string sent (1)", 1, 16,
         [](R& r, double x) { r.strings.first_channel = static_cast<int>(x); }},
    };
}

/// A number, whatever the locale; CLI11's own reading takes "nan".
double read_number(const NumberOption& option, const std::string& text) {
    const auto number = text::read_number(text);
    const bool whole =
        option.name != std::string("--first-channel") || number == std::floor(number.value_or(0));
    if (number && whole && *number >= option.low && *number <= option.high) return *number;
    throw CLI::ValidationError(option.name, fmt::format("found '{}', expected {:g} to {:g}", text,
                                                        option.low, option.high));
}

std::uint64_t read_seed(const std::string& text) {
    if (const auto seed = text::read_count(text)) return static_cast<std::uint64_t>(*seed);
    throw CLI::ValidationError("--seed", fmt::format("found '{}', expected a whole number", text));
}

/// Values by name.
template <class T>
T read_word(const char* option, const std::string& text,
            const std::vector<std::pair<std::string, T>>& words) {
    std::string expected;
    for (const auto& [word, value] : words) {
        if (word == text) return value;
        expected += expected.empty() ? word : ", " + word;
    }
    throw CLI::ValidationError(option,
                               fmt::format("found '{}', expected one of {}", text, expected));
}

std::vector<std::pair<std::string, simulate::Wear>> wears() {
    std::vector<std::pair<std::string, simulate::Wear>> all;
    for (int n = 0; n < simulate::wear_count; ++n) {
        const auto wear = static_cast<simulate::Wear>(n);
        all.emplace_back(name_of(wear), wear);
    }
    return all;
}

/// Changes to the roughness, made after the wear they start from is known.
using Changes = std::vector<std::function<void(Roughness&)>>;

void describe_files(CLI::App& cli, Arguments& asked) {
    cli.add_option("in", asked.in, "The clean take")->type_name("IN.mid")->required();
    cli.add_option("out", asked.out, "The rough take to write")->type_name("OUT.mid")->required();
    cli.add_option("--truth", asked.truth, "Writes what was played, and the faults, as JSON")
        ->type_name("FILE");
    cli.add_flag("--force", asked.force, "Replaces files that are there already");
    cli.add_option_function<std::string>(
           "--seed", [&asked](const std::string& text) { asked.seed = read_seed(text); },
           "Another seed, other places (1)")
        ->type_name("N");
}

void describe_words(CLI::App& cli, simulate::Wear& wear, Changes& changes) {
    using simulate::SlidesAs;
    using simulate::Transport;
    cli.add_option_function<std::string>(
           "--wear",
           [&wear](const std::string& text) { wear = read_word("--wear", text, wears()); },
           "What all starts from: none, low, moderate or high")
        ->type_name("WEAR");
    cli.add_option_function<std::string>(
           "--slides-as",
           [&changes](const std::string& text) {
               const auto as = read_word<SlidesAs>(
                   "--slides-as", text, {{"bends", SlidesAs::bends}, {"notes", SlidesAs::notes}});
               changes.emplace_back([as](Roughness& rough) { rough.slides_as = as; });
           },
           "bends, or notes: every fret passed")
        ->type_name("HOW");
    cli.add_option_function<std::string>(
           "--transport",
           [&changes](const std::string& text) {
               const auto how = read_word<Transport>(
                   "--transport", text,
                   {{"exact", Transport::exact}, {"usb", Transport::usb}, {"din", Transport::din}});
               changes.emplace_back([how](Roughness& rough) { rough.transport = how; });
           },
           "exact, usb (frames of 1 ms) or din (31,250 baud)")
        ->type_name("HOW");
    cli.add_flag_function(
        "--tell-bend-range",
        [&changes](std::int64_t) {
            changes.emplace_back([](Roughness& rough) { rough.tells_bend_range = true; });
        },
        "Says the bend range by RPN 0 at the start");
    cli.add_flag_function(
        "--low-string-first",
        [&changes](std::int64_t) {
            changes.emplace_back([](Roughness& rough) { rough.strings.low_string_first = true; });
        },
        "The first channel is the lowest string's");
    cli.add_flag_function(
        "--one-channel",
        [&changes](std::int64_t) {
            changes.emplace_back([](Roughness& rough) { rough.one_channel = true; });
        },
        "All strings on the first channel");
}

void describe_numbers(CLI::App& cli, Changes& changes) {
    for (const auto& option : number_options()) {
        cli.add_option_function<std::string>(
               option.name,
               [option, &changes](const std::string& text) {
                   const double number = read_number(option, text);
                   changes.emplace_back(
                       [option, number](Roughness& rough) { option.set(rough, number); });
               },
               option.help)
            ->type_name("N");
    }
}

}  // namespace

std::optional<Arguments> read_arguments(int argc, char** argv, int& status) {
    Arguments asked;
    auto wear = simulate::Wear::none;
    Changes changes;
    CLI::App cli{purpose, "rough_pickup"};
    describe_files(cli, asked);
    describe_words(cli, wear, changes);
    describe_numbers(cli, changes);
    try {
        cli.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        status = cli.exit(error) == 0 ? 0 : 2;
        return std::nullopt;
    }
    asked.roughness = roughness_of(wear);
    for (const auto& change : changes) change(asked.roughness);
    return asked;
}

}  // namespace compline::rough
