#include "band_options.hpp"
#include "command.hpp"
#include "evening.hpp"
#include "kept_options.hpp"
#include "key_wish.hpp"
#include "pedal_options.hpp"
#include "quick_chart.hpp"
#include "rules.hpp"
#include "voicings_played.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/write_chart.hpp>
#include <compline/files/file_io.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

constexpr int most_times = 1000;
constexpr int slowest_rate = 8000;
constexpr int fastest_rate = 384000;
constexpr int shortest_period = 16;
constexpr int longest_period = 8192;
constexpr double furthest_offset_ms = 1000;

struct Options {
    std::string chart;
    std::string out;
    std::string in;
    PedalOptions pedal;
    std::optional<double> tempo;
    std::string bars;
    std::optional<int> around;
    std::string changes;
    KeyWish key;
    std::optional<int> times;
    std::optional<int> rate;
    std::optional<int> period;
    BandOptions band;
    std::string voicings;
    RuleOptions rules;
    std::string take;
    double offset_ms = 0;
    bool verdicts = false;
    bool all = false;
    bool json = false;
    std::vector<practice::KeptOption> kept;
    std::vector<practice::KeptOption> typed;
};

/// What the report suggests itself, and what belongs to this evening alone.
const std::vector<std::string>& not_kept() {
    static const std::vector<std::string> names = {
        "CHART",   "--bars",  "--around",   "--key",  "--transpose", "--each-time",
        "--tempo", "--times", "--road-map", "--take", "--all",       "--json"};
    return names;
}

/// What a line to go on with says itself.
const std::vector<std::string>& said_anew() {
    static const std::vector<std::string> names = {"CHART", "--tempo", "--take"};
    return names;
}

/// The chart's file, or the few changes that were typed.
WantedChart read_chart_or_changes(const Options& options) {
    if (options.changes.empty()) return load_chart(options.chart, options.key);
    auto wanted = in_key(chart_of_changes(options.changes), options.key, chart::highest_fret);
    auto text = chart::write_chart(wanted.chart);
    return {chart::unroll(std::move(wanted.chart)), std::move(text), {}};
}

void refuse_no_chart(const Options& options) {
    if (options.chart.empty() == !options.changes.empty()) return;
    throw BadInput(
        options.chart.empty()
            ? "practice needs a chart, or changes such as --changes \"Dm7 | G7 | Cmaj7\"\n"
              "See compline practice --help."
            : "--changes are practised without a chart: leave out one of them");
}

/// The bars asked for; those around a bar begin one before it and end two behind it.
std::string bars_asked(const Options& options, const chart::Form& form) {
    if (!options.around) return options.bars;
    if (!options.bars.empty()) {
        throw BadInput("--around and --bars both say which bars: leave out one of them");
    }
    const int last = form.whole().to;
    if (*options.around > last) {
        throw BadInput(fmt::format("--around {}: there is no bar {}: the form has {} bars",
                                   *options.around, *options.around, last));
    }
    return fmt::format("{}-{}", std::max(1, *options.around - 1),
                       std::min(last, *options.around + 2));
}

AskedEvening read_music(const Options& options) {
    refuse_no_chart(options);
    auto chart = read_chart_or_changes(options);
    const auto bars = bars_asked(options, chart.form);
    if (!options.voicings.empty()) say_left_out(options.chart, chart);
    Stay stay{bars, options.times, !bars.empty() || options.times};
    const auto step = options.key.each_time;
    const auto passage = read_bars(chart.form, bars).value_or(chart.form.whole());
    if (step) {
        refuse_road_map(options.band);
        chart = through_keys(chart, *step, bars, options.times);
        stay = {};
    }
    auto band = read_band(options.band, chart.form, stay, options.tempo);
    AskedEvening evening(roadmap::RoadMap(std::move(chart.form), band.asked));
    evening.players = std::move(band.players);
    evening.stage = band.stage;
    evening.chart_file = options.chart;
    if (step) evening.through_keys = passage;
    evening.chart_text = std::move(chart.text);
    evening.voicing_words = options.voicings;
    evening.voicings = read_voicings_played(options.voicings, evening.map);
    const bool other_guitar =
        evening.voicings && evening.voicings->fretboard != guitar::Fretboard::standard();
    if (other_guitar && options.in != "none") {
        throw BadInput(
            "--voicings: you are heard as a guitar in standard tuning without a capo: leave out "
            "tuning, capo and frets, or play with --in none");
    }
    return evening;
}

void read_take_path(const Options& options, AskedEvening& evening) {
    if (options.take.empty()) return;
    evening.take = options.take;
    std::error_code unknown;  // then making it says why
    if (std::filesystem::exists(*evening.take, unknown)) {
        throw BadInput(fmt::format("{} is there already: give the take another name",
                                   files::name_of(options.take)));
    }
}

void refuse_what_needs_ears(const Options& options) {
    if (options.in != "none") return;
    const auto refuse = [](const char* option) {
        throw BadInput(fmt::format("{} is of no use with --in none: nobody listens", option));
    };
    if (options.json) refuse("--json");
    if (options.all) refuse("--all");
    if (options.verdicts) refuse("--verdicts");
    if (!options.take.empty()) refuse("--take");
}

AskedEvening read_evening(const Options& options) {
    refuse_what_needs_ears(options);
    if (options.chart == standard_input) {
        throw BadInput(
            "practice reads your keys from the standard input: give the chart as a file");
    }
    AskedEvening evening = read_music(options);
    evening.rules = read_rules(options.rules, evening.map.form());
    evening.out = options.out;
    evening.in = options.in;
    check_pedal(options.pedal, options.in);
    evening.pedal = options.pedal.switches;
    evening.pedal_in = options.pedal.in;
    if (options.rate) evening.rate.emplace(*options.rate);
    evening.period = options.period;
    evening.offset = time::from_milliseconds(options.offset_ms);
    read_take_path(options, evening);
    evening.verdicts = options.verdicts;
    evening.listing = options.all ? report::Listing::all : report::Listing::one_screen;
    evening.json = options.json;
    evening.kept = options.kept;
    evening.typed = options.typed;
    return evening;
}

std::vector<Option> music(Options& options) {
    const std::vector<Option> what = {
        {"CHART", "", "Chart file", "", file_name(&options.chart)},
        tempo_option(options.tempo, "Quarter notes a minute, 30 to 400.", "the chart's"),
        {"--bars", "BARS", "What to practise: 9-12, or B:1-4 in the first B.", "the whole form",
         as_typed(&options.bars)},
        {"--around", "BAR", "A bar with the one before it and the two behind it.", "the whole form",
         whole_number(1, chart::most_bars, &options.around)},
        {"--changes", "CHANGES", "Chords to practise without a chart: \"Dm7 | G7 | Cmaj7 | A7b9\".",
         "the chart's", as_typed(&options.changes)},
        {"--times", "N", "Times through, 1 to 1000, without a gap.", "until you stop",
         whole_number(1, most_times, &options.times), "--passes"},
        voicings_option(options.voicings,
                        "The grip to hold and the next one are shown, by a plan of voicings")};
    return joined(
        {what, options_of(options.key), {each_time_option(options.key)}, options_of(options.band)});
}

std::vector<Option> gear(Options& options) {
    return {{"--out", "OUTPUT",
             "What the band plays through: part of a name that `compline devices`\n"
             "lists, or API:PART.",
             "the default output", as_typed(&options.out)},
            {"--in", "INPUT",
             "Where your guitar's MIDI comes in: part of a name, API:PART, or none\n"
             "(the band plays, nobody listens).",
             "the only one there is", as_typed(&options.in)},
            {"--rate", "HZ", "Frames a second.", "the output's own",
             whole_number(slowest_rate, fastest_rate, &options.rate)},
            {"--period", "FRAMES",
             "Frames a callback: fewer is a shorter delay, more is safer. A JACK\n"
             "server has its own.",
             "256", whole_number(shortest_period, longest_period, &options.period)},
            {"--offset", "MS",
             "How long your notes take to get here, in milliseconds: taken off every\n"
             "lateness.",
             "0", number(-furthest_offset_ms, furthest_offset_ms, &options.offset_ms)}};
}

std::vector<Option> judging(Options& options) {
    return joined({options_of(options.rules, ""),
                   {{"--all", "", "The report lists every fault.", "as many as fit one screen",
                     flag(&options.all)},
                    {"--take", "FILE", "File to record to.",
                     "a new one among your takes, named by date", file_name(&options.take)},
                    {"--verdicts", "", "Each change is judged as you go.",
                     "your eyes stay on the form", flag(&options.verdicts)},
                    {"--json", "", "The report as JSON.", "in words", flag(&options.json)}}});
}

}  // namespace

ProgramCommand practice_command() {
    const auto options = std::make_shared<Options>();
    return {
        "practice", "Play with the band, be heard, and read how it went",
        remembering(remembering(joined({music(*options), gear(*options), options_of(options->pedal),
                                        judging(*options)}),
                                not_kept(), &options->kept),
                    said_anew(), &options->typed),
        [options] { return play(read_evening(*options)); },
        "While it plays: space pauses, up and down change the tempo, l loops the row, w goes back "
        "to\n"
        "the whole tune (a page-turning pedal does both), d and b send drums and bass out, Home "
        "goes to the top, r starts over, q\n"
        "stops. Set the level of your headphones before you start, and keep it where you could\n"
        "still talk over it."};
}

}  // namespace compline::app
