#include "command.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/band/smf.hpp>
#include <compline/midi/file_io.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <cctype>
#include <filesystem>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

constexpr time::SampleRate rate{48000};
constexpr int count_in_bars = 2;
constexpr int most_choruses = 100;
constexpr double longest_minutes = 120;

struct Options {
    std::string chart;
    std::string out;
    std::string tempo;
    std::string bars;
    std::string choruses = "1";
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

band::Request read_request(const Options& options, const chart::Form& form) {
    band::Request request;
    request.passage = read_bars(form, options.bars).value_or(form.whole());
    request.times_through = read_count("--choruses", options.choruses, 1, most_choruses);
    request.count_in_bars = count_in_bars;
    return request;
}

void refuse_endless(const chart::Form& form, const band::Request& request,
                    const time::Groove& groove) {
    const auto beats = static_cast<double>(form.chart.meter.beats()) * request.passage.bars() *
                       request.times_through;
    const double minutes = beats / groove.timeline.tempo().count();
    if (minutes > longest_minutes) {
        throw BadInput(
            fmt::format("that would last {:.0f} minutes; {:g} are the most: give fewer "
                        "--choruses or --bars",
                        minutes, longest_minutes));
    }
}

void write_wav(const Options& options, const chart::Form& form, const band::Request& request,
               const time::Groove& groove) {
    const auto part = band::arrange(form, request);
    const time::Ticks count_in = form.chart.meter.bar() * request.count_in_bars;
    const auto zero = time::nearest_frame(groove.timeline.time_of(count_in), rate);
    const sound::Bank bank(rate);
    const auto cues = band::place(part, groove, rate, zero);
    const sound::Stretch stretch{time::Frames(0), sound::end_of(cues, bank, zero)};
    const float peak = sound::render_wav(cues, bank, stretch, options.out);
    if (peak > 1) say(fmt::format("{}: clipped, its peak is {:.2f}", options.out, peak));
}

void render(const Options& options) {
    const Format format = format_of(options.out);
    const auto form = load_form(options.chart);
    const auto request = read_request(options, form);
    const auto groove = groove_of(form, read_tempo(options.tempo));
    refuse_endless(form, request, groove);
    refuse_existing(options);
    if (format == Format::wav) {
        write_wav(options, form, request, groove);
    } else {
        const auto part = band::arrange(form, request);
        midi::save_bytes(options.out, midi::write_smf(band::to_smf(form, request, part, groove)),
                         midi::Existing::replace);
    }
    fmt::print("{}: bars {}-{} of {}, {} at {:g} bpm, after {} bars of count-in\n",
               printable(options.out), request.passage.from, request.passage.to, form.chart.title,
               request.times_through == 1 ? "once" : fmt::format("{} times", request.times_through),
               groove.timeline.tempo().count(), request.count_in_bars);
}

}  // namespace

void add_render(Program& program) {
    auto options = std::make_shared<Options>();
    auto* command =
        program.cli.add_subcommand("render", "Write what the band plays as WAV or MIDI");
    command->add_option("CHART", options->chart, "Chart file")->required()->type_name("");
    command->add_option("OUT", options->out, "File to write: its ending says which, .wav or .mid")
        ->required()
        ->type_name("");
    command
        ->add_option("--tempo", options->tempo,
                     "Quarter notes a minute, 30 to 400. Default: the chart's")
        ->type_name("BPM");
    command
        ->add_option("--bars", options->bars,
                     "What to play: 9-12, or B:1-4 in the first B. Default: the whole form")
        ->type_name("BARS");
    command->add_option("--choruses", options->choruses, "Times through, 1 to 100. Default: 1")
        ->type_name("N");
    command->add_flag("--replace", options->replace,
                      "Overwrite OUT. Default: what is there already is kept");
    command->callback([options] { render(*options); });
}

}  // namespace compline::app
