#include "accidentals.hpp"
#include "band_options.hpp"
#include "command.hpp"
#include "evening.hpp"
#include "kept_options.hpp"
#include "key_wish.hpp"
#include "ladder.hpp"
#include "own_takes.hpp"
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
    AsGiven out;
    AsGiven in;
    std::optional<double> tempo;
    std::string bars;
    std::optional<int> around;
    bool weakest = false;
    std::string changes;
    KeyWish key;
    std::optional<int> times;
    std::optional<roadmap::AskedLadder> ladder;
    bool no_reminders = false;
    std::optional<int> rate;
    std::optional<int> period;
    BandOptions band;
    AsGiven voicings;
    VoicingOptions hand;  ///< the guitar, and what `voicings` need not say
    std::string player;
    RuleOptions rules;
    std::string take;
    double offset_ms = 0;
    bool verdicts = false;
    report::View view = report::View::rows;
    bool all = false;
    bool json = false;
    std::vector<practice::KeptOption> kept;
    std::vector<std::string> words;  ///< all that was typed
};

/// What the report suggests itself, and what belongs to this evening alone.
const std::vector<std::string>& not_kept() {
    static const std::vector<std::string> names = {
        "CHART",   "--bars",  "--around",   "--weakest", "--key", "--transpose", "--each-time",
        "--tempo", "--times", "--road-map", "--take",    "--all", "--json",      "--ladder"};
    return names;
}

/// The chart's file, or the few changes that were typed.
WantedChart read_chart_or_changes(const Options& options) {
    if (options.changes.empty())
        return load_chart(options.chart, options.key, read_fretboard(options.hand.guitar).frets());
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

void refuse_bars_twice(const Options& options) {
    const int said =
        (options.bars.empty() ? 0 : 1) + (options.around ? 1 : 0) + (options.weakest ? 1 : 0);
    if (said < 2) return;
    throw BadInput(fmt::format("{} and {} both say which bars: leave out one of them",
                               options.around ? "--around" : "--weakest",
                               options.bars.empty() ? "--weakest" : "--bars"));
}

/// The bars asked for; those around a bar begin one before it and end two behind it.
std::string bars_asked(const Options& options, const chart::Form& form) {
    refuse_bars_twice(options);
    if (options.weakest) {
        const auto weakest = weakest_bars(form);
        say(weakest.why);
        return weakest.bars;
    }
    if (!options.around) return options.bars;
    const int last = form.whole().to;
    if (*options.around > last) {
        throw BadInput(fmt::format("--around {}: there is no bar {}: the form has {} bars",
                                   *options.around, *options.around, last));
    }
    return fmt::format("{}-{}", std::max(1, *options.around - 1),
                       std::min(last, *options.around + 2));
}

/// One guitar is played: where words and options describe it, they describe the same.
guitar::Fretboard guitar_heard(const Options& options,
                               const std::optional<guitar::VoicingPlan>& voicings) {
    const auto described = read_fretboard(options.hand.guitar);
    if (!voicings || voicings->fretboard == described) return described;
    if (options.hand.guitar.typed()) {
        throw BadInput(fmt::format(
            "{}: its guitar is another one than {} says: leave it out there",
            text::option_place(options.voicings.name, options.voicings.text),
            options.hand.guitar.name.empty() ? "--tuning, --capo or --frets" : guitar_option));
    }
    return voicings->fretboard;
}

BesideLadder beside_ladder(const Options& options) {
    return {options.tempo.has_value(), options.times.has_value(), options.key.each_time.has_value(),
            asks_for_road_map(options.band)};
}

AskedEvening read_music(const Options& options) {
    refuse_no_chart(options);
    if (options.ladder) refuse_beside_ladder(beside_ladder(options));
    auto chart = read_chart_or_changes(options);
    const auto bars = bars_asked(options, chart.form);
    if (!options.voicings.empty()) say_left_out(options.chart, chart);
    Stay stay{bars, options.times, !bars.empty() || options.times || options.ladder};
    const auto step = options.key.each_time;
    const auto passage = read_bars(chart.form, bars).value_or(chart.form.whole());
    if (step) {
        refuse_road_map(options.band);
        chart = through_keys(chart, *step, bars, options.times);
        stay = {};
    }
    auto band = read_band(options.band, chart.form, stay, options.tempo);
    if (options.ladder) set_ladder(*options.ladder, chart.form, band.asked);
    AskedEvening evening(roadmap::RoadMap(std::move(chart.form), band.asked));
    evening.players = std::move(band.players);
    evening.stage = band.stage;
    evening.chart_file = options.chart;
    if (step) evening.through_keys = passage;
    evening.chart_text = std::move(chart.text);
    evening.voicing_words = options.voicings.text;
    evening.voicings = read_voicings_played(options.voicings, evening.map, options.hand);
    evening.fretboard = guitar_heard(options, evening.voicings);
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
    if (options.in.text != no_input) return;
    const auto refuse = [](const char* option) {
        throw BadInput(fmt::format("{} is of no use with --in none: nobody listens", option));
    };
    if (options.json) refuse("--json");
    if (options.all) refuse("--all");
    if (options.verdicts) refuse("--verdicts");
    if (!options.take.empty()) refuse("--take");
    if (options.ladder) {
        throw BadInput(
            "--ladder is of no use with --in none: nobody listens; compline render --ladder writes "
            "one to play to");
    }
}

/// Another evening is another take.
std::vector<std::string> to_be_typed_again(std::vector<std::string> words) {
    const std::string take = "--take";
    for (auto word = words.begin(); word != words.end();) {
        const bool is_take = *word == take || word->rfind(take + "=", 0) == 0;
        const auto next = word + (*word == take && word + 1 != words.end() ? 2 : 1);
        word = is_take ? words.erase(word, next) : word + 1;
    }
    return words;
}

AskedEvening read_evening(const Options& options) {
    refuse_what_needs_ears(options);
    if (options.chart == standard_input) {
        throw BadInput(
            "practice reads your keys from the standard input: give the chart as a file");
    }
    AskedEvening evening = read_music(options);
    evening.rules = read_rules(options.rules, evening.map.form(), Unsaid::by_settings);
    evening.out = options.out;
    evening.in = options.in;
    evening.player = options.player;
    if (options.rate) evening.rate.emplace(*options.rate);
    evening.period = options.period;
    evening.offset = time::from_milliseconds(options.offset_ms);
    read_take_path(options, evening);
    evening.verdicts = options.verdicts;
    evening.view = options.view;
    evening.listing = options.all ? report::Listing::all : report::Listing::one_screen;
    evening.json = options.json;
    evening.kept = options.kept;
    evening.words = to_be_typed_again(options.words);
    evening.reminders = !options.no_reminders;
    return evening;
}

/// Of the settings: what is wrong with the words is known before a chart is read.
ValueReader checked_words(AsGiven& words) {
    return {ValueReader::Takes::one, [&words](const std::string& name, const std::string& text) {
                (void)read_voicings(name, text);
                words = {text, name};
            }};
}

std::vector<Option> music(Options& options) {
    const std::vector<Option> what = {
        {"CHART", "", "Chart file", "", file_name(&options.chart)},
        tempo_option(options.tempo, "Quarter notes a minute, 30 to 400.", "the chart's"),
        {"--bars", "BARS", "What to practise: 9-12, or B:1-4 in the first B.", "the whole form",
         as_typed(&options.bars)},
        {"--around", "BAR", "A bar with the one before it and the two behind it.", "the whole form",
         whole_number(1, chart::most_bars, &options.around)},
        {"--weakest", "", "The bars that your newest takes of this chart call the weakest.",
         "the whole form", flag(&options.weakest)},
        {"--changes", "CHANGES", "Chords to practise without a chart: \"Dm7 | G7 | Cmaj7 | A7b9\".",
         "the chart's", as_typed(&options.changes)},
        {"--times", "N", "Times through, 1 to 1000, without a gap.", "until you stop",
         whole_number(1, most_times, &options.times), "--passes"},
        ladder_option(options.ladder,
                      "The same bars from a slow tempo up to a fast one, such as 96-132: twice\n"
                      "clean and it is 4 % faster, twice not and it is slower; at the top once\n"
                      "through the section."),
        as_setting(
            voicings_option(options.voicings,
                            "The grip to hold and the next one are shown, by a plan of voicings"),
            checked_words(options.voicings))};
    return joined(
        {what, options_of(options.key), {each_time_option(options.key)}, options_of(options.band)});
}

std::vector<Option> gear(Options& options) {
    std::vector<Option> rows = {
        {"--out", "OUTPUT",
         "What the band plays through: part of a name that `compline devices`\n"
         "lists, or API:PART.",
         "the default output", as_given(&options.out)},
        {"--in", "INPUT",
         "Where your guitar's MIDI comes in: part of a name, API:PART, or none\n"
         "(the band plays, nobody listens).",
         "the only one there is", as_given(&options.in)},
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
    for (auto& row : rows) row = as_setting(std::move(row));
    rows.back() = of_guitar(std::move(rows.back()));
    return joined({rows, {which_guitar(options.hand.guitar)}, options_of(options.hand.guitar)});
}

std::vector<Option> judging(Options& options) {
    return joined(
        {options_of(options.rules, ""),
         {{"--all", "", "The report lists every fault.", "as many as fit one screen",
           flag(&options.all)},
          {"--take", "FILE", "File to record to.", "a new one among your takes, named by date",
           file_name(&options.take)},
          as_setting({"--verdicts", "", "Each change is judged as you go.",
                      "your eyes stay on the form", flag(&options.verdicts)}),
          as_setting({"--view", "VIEW",
                      "What the screen shows while you play: rows (of the chart), or large (the\n"
                      "chord, to be read standing). v changes it.",
                      "rows",
                      one_by_name({report::View::rows, report::View::large}, &options.view)}),
          as_setting({"--player", "NAME", "Whose evening it is, kept in the take.", "nobody's",
                      as_typed(&options.player)}),
          {"--json", "", "The report as JSON.", "in words", flag(&options.json)},
          as_opposite_setting({"--no-reminders", "", "Nobody tells you to rest your hand.\n",
                               "after ten minutes of a loop, 45 of an evening",
                               flag(&options.no_reminders)}),
          accidentals_option()}});
}

}  // namespace

ProgramCommand practice_command() {
    const auto options = std::make_shared<Options>();
    ProgramCommand command{
        "practice", "Play with the band, be heard, and read how it went",
        remembering(joined({music(*options), gear(*options), judging(*options)}), not_kept(),
                    &options->kept),
        [options] { return play(read_evening(*options)); },
        "While it plays: space pauses, up and down change the tempo, l loops the row, w\n"
        "goes back to the whole tune (a page-turning pedal does both), d and b send drums\n"
        "and bass out, v shows the chord large or the rows again, Home goes to the top,\n"
        "r starts over, q stops. Set the level of your headphones before you start, and\n"
        "keep it where you could still talk over it."};
    command.hears = [options](const auto& words) { options->words = words; };
    command.settled = wishes_of(options->hand);
    command.port = [options] { return input_name(options->in); };
    return command;
}

}  // namespace compline::app
