#include "ladder.hpp"
#include "progress_line.hpp"
#include "to_render.hpp"
#include "voicings_played.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/band/smf.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/files/file_io.hpp>
#include <compline/report/tempi.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <system_error>
#include <utility>

namespace compline::app {

namespace {

constexpr int most_times_written = 100;
constexpr double longest_minutes = 120;
constexpr int slowest_of_file = 44100;
constexpr int fastest_of_file = 96000;

struct RenderOptions {
    MusicOptions music;
    std::string out;
    int rate = 48000;
    sound::Bits bits = sound::Bits::twenty_four;
    bool mono = false;
    bool replace = false;
};

enum class Format { wav, midi };

Format format_of(const std::string& out) {
    if (ending_of(out) == ".wav") return Format::wav;
    if (is_midi_file(out)) return Format::midi;
    throw BadInput(
        fmt::format("{}: the ending says what to write: .wav or .mid", files::name_of(out)));
}

void refuse_existing(const RenderOptions& options) {
    std::error_code unknown;  // then writing says why
    if (!options.replace && std::filesystem::exists(options.out, unknown)) {
        throw BadInput(fmt::format("{} is there already: give another name, or --replace",
                                   files::name_of(options.out)));
    }
}

files::Existing existing_of(const RenderOptions& options) {
    return options.replace ? files::Existing::replace : files::Existing::keep;
}

void refuse_endless(const roadmap::RoadMap& map) {
    const double minutes = map.tempi().time_of(map.end()).count() / 60;
    if (minutes > longest_minutes) {
        throw BadInput(
            fmt::format("that would last {:.0f} minutes; {:g} are the most: give fewer "
                        "--times or --bars",
                        minutes, longest_minutes));
    }
}

sound::WavFormat format_of(const RenderOptions& options) {
    sound::WavFormat format;
    format.bits = options.bits;
    if (options.mono) format.channels = sound::Channels::mono;
    format.existing = existing_of(options);
    return format;
}

void write_wav(const RenderOptions& options, const ToRender& what) {
    const auto format = format_of(options);
    const time::SampleRate rate(options.rate);
    const auto part = band::arrange(what.map, what.players);
    const auto zero = time::nearest_frame(what.map.lead(), rate);
    const sound::Bank bank(rate, band::guitar_sounds_for(what.players));
    const auto cues = band::place(part, what.map, rate, zero, what.stage, time::Frames(0));
    auto end = sound::end_of(cues, bank, zero);
    if (what.until) end = std::min(end, zero + time::nearest_frame(*what.until, rate));
    ProgressLine progress;
    const float peak = sound::render_wav(cues, bank, {time::Frames(0), end}, options.out, format,
                                         [&](double share) { progress.show(share); });
    if (peak > 1 && format.bits != sound::Bits::float32)
        say(fmt::format("{}: clipped, its peak is {:.2f}", files::name_of(options.out), peak));
}

/// "bars 9-12 twice in each tempo, then 9-16 once,"; of a take, "bars 9-12 on a ladder".
std::string ladder_words(const ToRender& what) {
    const auto& map = what.map;
    const auto loop = map.asked().way.reach();
    if (what.until) return fmt::format("bars {}-{} on a ladder,", loop.from, loop.to);
    const auto last = map.way().stretches.back().passage;
    return fmt::format("bars {}-{} twice in each tempo, then {}-{} once,", loop.from, loop.to,
                       last.from, last.to);
}

std::string played_words(const ToRender& what) {
    const auto& map = what.map;
    const auto& chart = map.form().chart;
    const auto title =
        chart.title + (chart.written_in ? fmt::format(" in {}", chart.key.name()) : "");
    if (map.asked().ladder) return fmt::format("{} of {}", ladder_words(what), title);
    if (!map.way().is_uniform()) {
        return fmt::format("{} by road map ({})", title,
                           chart::road_map_in_words(map.way(), map.form()));
    }
    const auto reach = map.way().reach();
    const int times = map.times_through().value();
    return fmt::format("bars {}-{} of {}, {}", reach.from, reach.to, title,
                       times == 1 ? "once" : fmt::format("{} times", times));
}

void refuse_sound_options(const RenderOptions& options) {
    const RenderOptions usual;
    if (options.bits == usual.bits && !options.mono && options.rate == usual.rate) return;
    throw BadInput(
        fmt::format("{}: a MIDI file has no samples: --rate, --bits and --mono are for "
                    ".wav",
                    files::name_of(options.out)));
}

void render(const RenderOptions& options) {
    const Format format = format_of(options.out);
    if (format == Format::midi) refuse_sound_options(options);
    const auto what = read_to_render(options.music);
    refuse_endless(what.map);
    refuse_existing(options);
    if (format == Format::wav) {
        write_wav(options, what);
    } else {
        const auto part = band::arrange(what.map, what.players);
        const auto file = band::to_smf(what.map, part, what.stage);
        files::save_bytes(options.out, midi::write_smf(file), existing_of(options));
    }
    const int bars = what.map.count_in_bars();
    const bool free = report::tempi_played(what.map).empty();
    fmt::print("{}: {} {} {}, after {} bar{} of count-in\n", files::name_of(options.out),
               played_words(what), free ? "in" : "at", report::tempo_range(what.map), bars,
               bars == 1 ? "" : "s");
}

}  // namespace

ProgramCommand render_command() {
    const auto options = std::make_shared<RenderOptions>();
    const std::vector<Option> what = {
        needed({"CHART", "", "Chart file; or a take, whose band is played again as it was heard",
                "", file_name(&options->music.chart)}),
        needed({"OUT", "", "File to write: its ending says which, .wav or .mid", "",
                file_name(&options->out)}),
        tempo_option(options->music.tempo, "Quarter notes a minute, 30 to 400.", "the chart's"),
        {"--bars", "BARS", "What to play: 9-12, or B:1-4 in the first B.", "the whole form",
         as_typed(&options->music.bars)},
        {"--times", "N", "Times through, 1 to 100.", "1",
         whole_number(1, most_times_written, &options->music.times), "--choruses"},
        ladder_option(options->music.ladder,
                      "The same bars from a slow tempo up to a fast one, such as 96-132: twice\n"
                      "in each, 4 % faster each time, then once through the section.")};
    const std::vector<Option> file = {
        {"--rate", "HZ", "WAV: frames a second, 44100 to 96000.", "48000",
         whole_number(slowest_of_file, fastest_of_file, &options->rate)},
        {"--bits", "BITS", "WAV: 16, 24 or float, a sample.", "24",
         one_of<sound::Bits>({{"16", sound::Bits::sixteen},
                              {"24", sound::Bits::twenty_four},
                              {"float", sound::Bits::float32}},
                             &options->bits)},
        {"--mono", "", "WAV: one channel.", "two", flag(&options->mono)}};
    const std::vector<Option> end = {{"--replace", "", "Overwrite OUT.",
                                      "what is there already is kept", flag(&options->replace)}};
    ProgramCommand command{
        "render", "Write what the band plays as WAV or MIDI",
        joined({what,
                options_of(options->music.key),
                {each_time_option(options->music.key)},
                options_of(options->music.band),
                {voicings_option(options->music.voicings,
                                 "A guitar of the band comps, by a plan of voicings"),
                 which_guitar(options->music.hand.guitar)},
                grouped("The file", file),
                end}),
        [options] {
            render(*options);
            return Status::done;
        }};
    command.settled = options_of(options->music.hand);
    return command;
}

}  // namespace compline::app
