#include "band_options.hpp"
#include "voicings_played.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/band/smf.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/midi/file_io.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <cctype>
#include <filesystem>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

constexpr int most_choruses = 100;
constexpr double longest_minutes = 120;
constexpr int slowest_rate = 44100;
constexpr int fastest_rate = 96000;

struct Options {
    std::string chart;
    std::string out;
    std::string tempo;
    std::string bars;
    std::string choruses;
    BandOptions band;
    std::string voicings;
    std::string rate = "48000";
    std::string bits = "24";
    bool mono = false;
    bool replace = false;
};

enum class Format { wav, midi };

Format format_of(const std::string& out) {
    std::string ending = std::filesystem::path(out).extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (ending == ".wav") return Format::wav;
    if (ending == ".mid" || ending == ".midi") return Format::midi;
    throw BadInput(fmt::format("{}: what to write is told by the ending: .wav or .mid", out));
}

void refuse_existing(const Options& options) {
    std::error_code unknown;  // then writing says why
    if (!options.replace && std::filesystem::exists(options.out, unknown)) {
        throw BadInput(
            fmt::format("{} is there already: give another name, or --replace", options.out));
    }
}

midi::Existing existing_of(const Options& options) {
    return options.replace ? midi::Existing::replace : midi::Existing::keep;
}

Band read_band(const Options& options, chart::Form& form) {
    Stay stay;
    stay.bars = options.bars;
    stay.times =
        options.choruses.empty() ? 1 : read_count("--choruses", options.choruses, 1, most_choruses);
    stay.asked = !options.bars.empty() || !options.choruses.empty();
    auto band = read_band(options.band, form, stay, read_tempo(options.tempo));
    band.setup.voicings = read_voicings_played(options.voicings, form, band.setup.route,
                                               band.groove.timeline.tempo());
    return band;
}

void refuse_endless(const chart::Form& form, const Band& band) {
    const auto times = static_cast<int>(band.setup.route.stretches.size());
    const auto beats = static_cast<double>(form.chart.meter.beats()) *
                       static_cast<double>(band.setup.route.bars_before(times + 1));
    const double minutes = beats / band.groove.timeline.tempo().count();
    if (minutes > longest_minutes) {
        throw BadInput(
            fmt::format("that would last {:.0f} minutes; {:g} are the most: give fewer "
                        "--choruses or --bars",
                        minutes, longest_minutes));
    }
}

sound::WavFormat format_of(const Options& options) {
    sound::WavFormat format;
    if (options.bits == "16") {
        format.bits = sound::Bits::sixteen;
    } else if (options.bits == "float") {
        format.bits = sound::Bits::float32;
    } else if (options.bits != "24") {
        throw BadInput(fmt::format("--bits {}: expected 16, 24 or float", options.bits));
    }
    if (options.mono) format.channels = sound::Channels::mono;
    format.existing = existing_of(options);
    return format;
}

/// How far it is, for a player who waits at a terminal.
class ProgressLine {
  public:
    void show(double share) {
        if (!is_shown_) return;
        say_as_is(fmt::format("\r{:3.0f} %", 100 * share));
        printed_ = true;
    }
    ~ProgressLine() {
        if (printed_) say_as_is("\r     \r");
    }
    ProgressLine() = default;
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

  private:
    bool is_shown_ = ::isatty(STDERR_FILENO) != 0;
    bool printed_ = false;
};

void write_wav(const Options& options, const chart::Form& form, const Band& band) {
    const auto format = format_of(options);
    const time::SampleRate rate(read_count("--rate", options.rate, slowest_rate, fastest_rate));
    const auto part = band::arrange(form, band.setup, band.groove.timeline.tempo());
    const time::Ticks count_in = form.chart.meter.bar() * band.setup.count_in_bars;
    const auto zero = time::nearest_frame(band.groove.timeline.time_of(count_in), rate);
    const bool guitar = !band.setup.melody.empty() || band.setup.voicings;
    const sound::Bank bank(rate, guitar ? sound::Bank::Guitar::with : sound::Bank::Guitar::without);
    const auto cues = band::place(part, band.groove, rate, zero, band.stage, time::Frames(0));
    const sound::Stretch stretch{time::Frames(0), sound::end_of(cues, bank, zero)};
    ProgressLine progress;
    const float peak = sound::render_wav(cues, bank, stretch, options.out, format,
                                         [&](double share) { progress.show(share); });
    if (peak > 1 && format.bits != sound::Bits::float32)
        say(fmt::format("{}: clipped, its peak is {:.2f}", options.out, peak));
}

std::string played_words(const chart::Form& form, const chart::Route& route) {
    const auto times = route.stretches.size();
    const auto reach = route.reach();
    if (!route.is_uniform()) {
        return fmt::format("{} by road map ({})", form.chart.title,
                           chart::road_map_in_words(route, form));
    }
    return fmt::format("bars {}-{} of {}, {}", reach.from, reach.to, form.chart.title,
                       times == 1 ? "once" : fmt::format("{} times", times));
}

void refuse_sound_options(const Options& options) {
    if (options.bits == "24" && !options.mono && options.rate == "48000") return;
    throw BadInput(
        fmt::format("{}: a MIDI file has no samples: --rate, --bits and --mono are for "
                    ".wav",
                    options.out));
}

void render(const Options& options) {
    const Format format = format_of(options.out);
    if (format == Format::midi) refuse_sound_options(options);
    auto form = load_form(options.chart);
    const auto band = read_band(options, form);
    refuse_endless(form, band);
    refuse_existing(options);
    if (format == Format::wav) {
        write_wav(options, form, band);
    } else {
        const auto part = band::arrange(form, band.setup, band.groove.timeline.tempo());
        const auto file = band::to_smf(form, band.setup, part, band.groove, band.stage);
        midi::save_bytes(options.out, midi::write_smf(file), existing_of(options));
    }
    const int bars = band.setup.count_in_bars;
    fmt::print("{}: {} at {:g} bpm, after {} bar{} of count-in\n", printable(options.out),
               played_words(form, band.setup.route), band.groove.timeline.tempo().count(), bars,
               bars == 1 ? "" : "s");
}

}  // namespace

Command render_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> what = {
        needed({"CHART", "", "Chart file", &options->chart}),
        needed({"OUT", "", "File to write: its ending says which, .wav or .mid", &options->out}),
        {"--tempo", "BPM", "Quarter notes a minute, 30 to 400. Default: the chart's",
         &options->tempo},
        {"--bars", "BARS", "What to play: 9-12, or B:1-4 in the first B. Default: the whole form",
         &options->bars},
        {"--choruses", "N", "Times through, 1 to 100. Default: 1", &options->choruses}};
    const std::vector<Option> file = {
        {"--rate", "HZ", "WAV: frames a second, 44100 to 96000. Default: 48000", &options->rate},
        {"--bits", "BITS", "WAV: 16, 24 or float, a sample. Default: 24", &options->bits},
        {"--mono", "", "WAV: one channel. Default: two", &options->mono}};
    return {"render", "Write what the band plays as WAV or MIDI",
            joined({what,
                    options_of(options->band),
                    {voicings_option(options->voicings,
                                     "A guitar of the band comps, by a plan of voicings")},
                    grouped("The file", file),
                    {{"--replace", "", "Overwrite OUT. Default: what is there already is kept",
                      &options->replace}}}),
            [options] {
                render(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
