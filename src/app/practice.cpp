#include "band_options.hpp"
#include "command.hpp"
#include "evening.hpp"
#include "rules.hpp"
#include "voicings_played.hpp"

#include <fmt/format.h>

#include <memory>
#include <system_error>

namespace compline::app {

namespace {

constexpr int most_passes = 1000;
constexpr int slowest_rate = 8000;
constexpr int fastest_rate = 384000;
constexpr int shortest_period = 16;
constexpr int longest_period = 8192;
constexpr double furthest_offset_ms = 1000;

struct Options {
    std::string chart;
    std::string out;
    std::string in;
    std::string tempo;
    std::string bars;
    std::string passes;
    std::string rate;
    std::string period;
    BandOptions band;
    std::string voicings;
    RuleOptions rules;
    std::string take;
    std::string offset;
    bool verdicts = false;
    bool json = false;
};

void read_music(const Options& options, Evening& evening) {
    Stay stay;
    stay.bars = options.bars;
    if (!options.passes.empty()) {
        stay.times = read_count("--passes", options.passes, 1, most_passes);
    }
    stay.asked = !options.bars.empty() || !options.passes.empty();
    auto band = read_band(options.band, evening.form, stay, read_tempo(options.tempo));
    evening.voicings = read_voicings_played(options.voicings, evening.form, band.setup.route,
                                            band.groove.timeline.tempo());
    const bool other_guitar =
        evening.voicings && evening.voicings->fretboard != guitar::Fretboard::standard();
    if (other_guitar && options.in != "none") {
        throw BadInput(
            "--voicings: you are heard as a guitar in standard tuning without a capo: leave out "
            "tuning, capo and frets, or play with --in none");
    }
    evening.plan = {std::move(band.setup), band.stage};
    evening.groove = std::move(band.groove);
    evening.swing = options.band.swing;
}

void read_take_path(const Options& options, Evening& evening) {
    if (options.take.empty()) return;
    evening.take = options.take;
    std::error_code unknown;  // then making it says why
    if (std::filesystem::exists(*evening.take, unknown)) {
        throw BadInput(
            fmt::format("{} is there already: give the take another name", options.take));
    }
}

void refuse_what_needs_ears(const Options& options) {
    if (options.in != "none") return;
    const auto refuse = [](const char* option) {
        throw BadInput(fmt::format("{} is of no use with --in none: nobody listens", option));
    };
    if (options.json) refuse("--json");
    if (options.verdicts) refuse("--verdicts");
    if (!options.take.empty()) refuse("--take");
}

Evening read_evening(const Options& options) {
    refuse_what_needs_ears(options);
    Evening evening;
    evening.form = load_form(options.chart);
    evening.chart_file = options.chart;
    read_music(options, evening);
    read_rules(options.rules, evening.form, evening.rules);
    evening.out = options.out;
    evening.in = options.in;
    if (!options.rate.empty()) {
        evening.rate.emplace(read_count("--rate", options.rate, slowest_rate, fastest_rate));
    }
    if (!options.period.empty()) {
        evening.period = read_count("--period", options.period, shortest_period, longest_period);
    }
    if (!options.offset.empty()) {
        evening.offset = time::from_milliseconds(
            read_number("--offset", options.offset, -furthest_offset_ms, furthest_offset_ms));
    }
    read_take_path(options, evening);
    evening.verdicts = options.verdicts;
    evening.json = options.json;
    return evening;
}

std::vector<Option> music(Options& options) {
    const std::vector<Option> what = {
        needed({"CHART", "", "Chart file", &options.chart}),
        {"--tempo", "BPM", "Quarter notes a minute, 30 to 400. Default: the chart's",
         &options.tempo},
        {"--bars", "BARS",
         "What to practise: 9-12, or B:1-4 in the first B. Default: the whole form", &options.bars},
        {"--passes", "N", "Times through, 1 to 1000, without a gap. Default: until you stop",
         &options.passes},
        voicings_option(options.voicings,
                        "The grip to hold and the next one are shown, by a plan of voicings")};
    return joined({what, options_of(options.band)});
}

std::vector<Option> gear(Options& options) {
    return {{"--out", "OUTPUT",
             "What the band plays through: part of a name that `compline devices`\n"
             "lists, or API:PART. Default: the default output",
             &options.out},
            {"--in", "INPUT",
             "Where your guitar's MIDI comes in: part of a name, API:PART, or none\n"
             "(the band plays, nobody listens). Default: the only one there is",
             &options.in},
            {"--rate", "HZ", "Frames a second. Default: the output's own", &options.rate},
            {"--period", "FRAMES",
             "Frames a callback: fewer is a shorter delay, more is safer. A JACK\n"
             "server has its own. Default: 256",
             &options.period},
            {"--offset", "MS",
             "How long your notes take to get here, in milliseconds: taken off every\n"
             "lateness. Default: 0",
             &options.offset}};
}

std::vector<Option> judging(Options& options) {
    return joined(
        {options_of(options.rules, ""),
         {{"--take", "FILE",
           "File to record to. Default: a new one among your takes, named by date", &options.take},
          {"--verdicts", "", "Each change is judged as you go. Default: your eyes stay on the form",
           &options.verdicts},
          {"--json", "", "The report as JSON. Default: in words", &options.json}}});
}

}  // namespace

Command practice_command() {
    const auto options = std::make_shared<Options>();
    return {"practice", "Play with the band, be heard, and read how it went",
            joined({music(*options), gear(*options), judging(*options)}),
            [options] { return play(read_evening(*options)); },
            "While it plays: space starts over, q stops. Set the level of your headphones before "
            "you\n"
            "start, and keep it where you could still talk over it."};
}

}  // namespace compline::app
