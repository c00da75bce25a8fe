#include "band_options.hpp"
#include "progress_line.hpp"
#include "voicings_played.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/band/smf.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/files/file_io.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <cctype>
#include <filesystem>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

constexpr int most_times = 100;
constexpr double longest_minutes = 120;
constexpr int slowest_rate = 44100;
constexpr int fastest_rate = 96000;

struct Options {
    std::string chart;
    std::string out;
    std::optional<double> tempo;
    std::string bars;
    std::optional<int> times;
    BandOptions band;
    std::string voicings;
    int rate = 48000;
    sound::Bits bits = sound::Bits::twenty_four;
    bool mono = false;
    bool replace = false;
};

enum class Format { wav, midi };

Format format_of(const std::string& out) {
    std::string ending = std::filesystem::path(out).extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (ending == ".wav") return Format::wav;
    if (ending == ".mid" || ending == ".midi") return Format::midi;
    throw BadInput(
        fmt::format("{}: the ending says what to write: .wav or .mid", files::name_of(out)));
}

void refuse_existing(const Options& options) {
    std::error_code unknown;  // then writing says why
    if (!options.replace && std::filesystem::exists(options.out, unknown)) {
        throw BadInput(fmt::format("{} is there already: give another name, or --replace",
                                   files::name_of(options.out)));
    }
}

files::Existing existing_of(const Options& options) {
    return options.replace ? files::Existing::replace : files::Existing::keep;
}

Band read_band(const Options& options, chart::Form& form) {
    Stay stay;
    stay.bars = options.bars;
    stay.times = options.times.value_or(1);
    stay.asked = !options.bars.empty() || options.times;
    auto band = read_band(options.band, form, stay, options.tempo);
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
                        "--times or --bars",
                        minutes, longest_minutes));
    }
}

sound::WavFormat format_of(const Options& options) {
    sound::WavFormat format;
    format.bits = options.bits;
    if (options.mono) format.channels = sound::Channels::mono;
    format.existing = existing_of(options);
    return format;
}

void write_wav(const Options& options, const chart::Form& form, const Band& band) {
    const auto format = format_of(options);
    const time::SampleRate rate(options.rate);
    const auto part = band::arrange(form, band.setup, band.groove.timeline.tempo());
    const time::Ticks count_in = form.chart.meter.bar() * band.setup.count_in_bars;
    const auto zero = time::nearest_frame(band.groove.timeline.time_of(count_in), rate);
    const sound::Bank bank(rate, band::guitar_sounds_for(band.setup));
    const auto cues = band::place(part, band.groove, rate, zero, band.stage, time::Frames(0));
    const sound::Excerpt excerpt{time::Frames(0), sound::end_of(cues, bank, zero)};
    ProgressLine progress;
    const float peak = sound::render_wav(cues, bank, excerpt, options.out, format,
                                         [&](double share) { progress.show(share); });
    if (peak > 1 && format.bits != sound::Bits::float32)
        say(fmt::format("{}: clipped, its peak is {:.2f}", files::name_of(options.out), peak));
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
    const Options usual;
    if (options.bits == usual.bits && !options.mono && options.rate == usual.rate) return;
    throw BadInput(
        fmt::format("{}: a MIDI file has no samples: --rate, --bits and --mono are for "
                    ".wav",
                    files::name_of(options.out)));
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
        files::save_bytes(options.out, midi::write_smf(file), existing_of(options));
    }
    const int bars = band.setup.count_in_bars;
    fmt::print("{}: {} at {:g} bpm, after {} bar{} of count-in\n", files::name_of(options.out),
               played_words(form, band.setup.route), band.groove.timeline.tempo().count(), bars,
               bars == 1 ? "" : "s");
}

}  // namespace

Command render_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> what = {
        needed({"CHART", "", "Chart file", "", file_name(&options->chart)}),
        needed({"OUT", "", "File to write: its ending says which, .wav or .mid", "",
                file_name(&options->out)}),
        tempo_option(options->tempo, "Quarter notes a minute, 30 to 400.", "the chart's"),
        {"--bars", "BARS", "What to play: 9-12, or B:1-4 in the first B.", "the whole form",
         as_typed(&options->bars)},
        {"--times", "N", "Times through, 1 to 100.", "1",
         whole_number(1, most_times, &options->times), "--choruses"}};
    const std::vector<Option> file = {
        {"--rate", "HZ", "WAV: frames a second, 44100 to 96000.", "48000",
         whole_number(slowest_rate, fastest_rate, &options->rate)},
        {"--bits", "BITS", "WAV: 16, 24 or float, a sample.", "24",
         one_of<sound::Bits>({{"16", sound::Bits::sixteen},
                              {"24", sound::Bits::twenty_four},
                              {"float", sound::Bits::float32}},
                             &options->bits)},
        {"--mono", "", "WAV: one channel.", "two", flag(&options->mono)}};
    return {"render", "Write what the band plays as WAV or MIDI",
            joined({what,
                    options_of(options->band),
                    {voicings_option(options->voicings,
                                     "A guitar of the band comps, by a plan of voicings")},
                    grouped("The file", file),
                    {{"--replace", "", "Overwrite OUT.", "what is there already is kept",
                      flag(&options->replace)}}}),
            [options] {
                render(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
