#include "band_options.hpp"

#include <compline/band/melody.hpp>
#include <compline/chart/read_manner.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/midi/file_io.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <functional>

namespace compline::app {

namespace {

constexpr int most_seeds = 1'000'000;
constexpr std::size_t largest_melody = std::size_t{4} << 20U;  // bytes

/// Runs a reader of words; what it does not like is told with the option's name.
template <typename Read>
auto with_option(const char* option, const std::string& text, Read read) {
    try {
        return read();
    } catch (const band::BandError& error) {
        throw BadInput(fmt::format("{} \"{}\": {}", option, text, error.what()));
    } catch (const chart::PlanError& error) {
        throw BadInput(fmt::format("{} \"{}\": {}", option, text, error.what()));
    } catch (const chart::StyleError& error) {
        throw BadInput(fmt::format("{}: {}", option, error.what()));
    }
}

chart::AskedManner read_wishes(const BandOptions& options) {
    chart::AskedManner manner;
    if (!options.drums.empty()) {
        manner.drums = with_option("--drums", options.drums,
                                   [&] { return chart::read_drums_name(options.drums); });
    }
    if (!options.bass.empty()) {
        const auto wish = with_option("--bass", options.bass,
                                      [&] { return chart::read_bass_wish(options.bass); });
        manner.bass = wish.bass;
        manner.plain_bass = wish.plain;
    }
    if (!options.feel.empty()) {
        manner.feel = with_option("--feel", options.feel,
                                  [&] { return chart::read_feel_name(options.feel); });
    }
    if (!options.phrasing.empty()) {
        manner.phrasing = with_option("--phrasing", options.phrasing,
                                      [&] { return chart::read_phrasing_name(options.phrasing); });
    }
    return manner;
}

chart::Route read_route(const BandOptions& options, const chart::Form& form, const Stay& stay) {
    if (!options.plan.empty() && options.plan != "none") {
        if (stay.asked) {
            throw BadInput(
                "--plan says what is played and how often: leave out --bars and the "
                "number of times");
        }
        return with_option("--plan", options.plan,
                           [&] { return chart::read_road_map(form, options.plan); });
    }
    if (!stay.asked && options.plan.empty()) {
        if (auto own = chart::own_road_map(form)) return *own;
    }
    return chart::Route::through(form, read_bars(form, stay.bars).value_or(form.whole()),
                                 stay.times);
}

std::vector<int> read_hihat(const std::string& text, time::Meter meter) {
    const auto click = band::read_click(text, meter);
    std::vector<int> beats;
    for (const auto at : click.positions) {
        if (click.every != 1 || at % meter.beat() != time::Ticks(0)) {
            throw BadInput(
                fmt::format("--hi-hat \"{}\": the foot closes on beats of every bar, 1 "
                            "to {}, such as \"2 4\"",
                            text, meter.beats()));
        }
        beats.push_back(static_cast<int>(at / meter.beat()) + 1);
    }
    return beats;
}

std::vector<band::MelodyNote> load_melody(const std::string& path) {
    try {
        const auto read = midi::read_smf(midi::load_bytes(path, largest_melody));
        if (read.cut_at) {
            throw BadInput(
                fmt::format("--melody {}: byte {}: the file ends in the middle of a "
                            "track",
                            path, *read.cut_at));
        }
        return band::read_melody(read.file);
    } catch (const midi::FileError& error) {
        throw BadInput(fmt::format("--melody: {}", error.what()));
    } catch (const midi::SmfError& error) {
        throw BadInput(fmt::format("--melody {}: {}", path, error.what()));
    } catch (const band::BandError& error) {
        throw BadInput(fmt::format("--melody {}: {}", path, error.what()));
    }
}

void read_stage(const BandOptions& options, band::Stage& stage) {
    using Reader = void (*)(std::string_view, band::Stage&);
    const auto read = [&](const char* option, const std::string& text, Reader reader) {
        if (!text.empty()) with_option(option, text, [&] { reader(text, stage); });
    };
    read("--place", options.place, band::read_placement);
    read("--mix", options.mix, band::read_mix);
    read("--pan", options.pan, band::read_pan);
}

}  // namespace

void apply_swing(const std::string& swing, const std::string& who, chart::Form& form) {
    if (swing.empty()) return;
    form.chart.swing_ratio =
        with_option(who.c_str(), swing, [&] { return chart::read_swing_ratio(swing); });
}

Band read_band(const BandOptions& options, chart::Form& form, const Stay& stay,
               std::optional<double> tempo) {
    const time::Bpm bpm = tempo ? time::Bpm(*tempo) : form.chart.tempo;
    const auto meter = form.chart.meter;
    apply_swing(options.swing, "--swing", form);
    Band band;
    auto& setup = band.setup;
    setup.manner = read_wishes(options);
    setup.route = read_route(options, form, stay);
    setup.count_in_bars = options.count_in.empty()
                              ? band::usual_count_in(bpm)
                              : read_count("--count-in", options.count_in, 0, 2);
    if (!options.click.empty()) {
        if (!options.drums.empty()) {
            throw BadInput("--click is played in place of the drums: leave out one of them");
        }
        setup.click = with_option("--click", options.click,
                                  [&] { return band::read_click(options.click, meter); });
    }
    if (!options.silence.empty()) {
        setup.silence = with_option("--silence", options.silence,
                                    [&] { return band::read_silence(options.silence); });
    }
    if (!options.hihat.empty()) {
        setup.hihat_beats = with_option("--hi-hat", options.hihat,
                                        [&] { return read_hihat(options.hihat, meter); });
    }
    setup.fills = options.fills;
    setup.crash = options.crash;
    if (!options.seed.empty()) {
        setup.seed = static_cast<std::uint64_t>(read_count("--seed", options.seed, 0, most_seeds));
    }
    if (!options.melody.empty()) setup.melody = load_melody(options.melody);
    read_stage(options, band.stage);
    band.groove = chart::groove_of(form, setup.route, setup.manner, bpm);
    return band;
}

std::vector<Option> options_of(BandOptions& options) {
    return grouped(
        "The band",
        {{"--plan", "PLAN",
          "What is played in which order and how, such as \"intro 4; head: two-feel\n"
          "drums=brushes; solo x2: walking; head: two-feel; tag 3; held ending\".\n"
          "Default: the chart's own; none passes that over",
          &options.plan},
         {"--drums", "STYLE",
          "ride, brushes, hats (by foot, on 2 and 4), quarters or off. Default: the\n"
          "chart's, else by tempo",
          &options.drums},
         {"--bass", "STYLE",
          "walking, two-feel, roots or off; plain beside it or alone: no skip notes and\n"
          "no dead ones. Default: the chart's, else by tempo",
          &options.bass},
         {"--feel", "FEEL", "swing, straight, bossa or ballad. Default: the chart's",
          &options.feel},
         {"--swing", "SWING",
          "Long to short eighth: auto (by tempo), 2:1, 1.8 or 62%. Default: the chart's",
          &options.swing},
         {"--phrasing", "HOW",
          "even (time like a metronome's) or breathing (louder and softer over four bars,\n"
          "other rides, light fills; the time stays exact). Default: the chart's, else even",
          &options.phrasing},
         {"--click", "BEATS",
          "A click in place of the drums, on these beats: \"2 4\", 4, \"2& 4&\"; 1/2 is\n"
          "beat 1 of every second bar. Default: the drums",
          &options.click},
         {"--silence", "P:S",
          "The band leaves you alone: 4:4 plays four bars and is silent for four, over\n"
          "and over; \"4:4 drums\" leaves the bass, \"1:1 times\" counts times through.\n"
          "Default: it stays",
          &options.silence},
         {"--count-in", "BARS",
          "Bars counted in before the first beat: 0, 1 or 2. Default: 2, under 80 bpm 1",
          &options.count_in},
         {"--hi-hat", "BEATS",
          "Beats on which the foot closes the hi-hat, such as \"2 3\" in a waltz.\n"
          "Default: 2 and 4; in a waltz 2",
          &options.hihat},
         {"--fills", "", "A fill before each section. Default: none", &options.fills},
         {"--crash", "", "A crash on the first beat of each time through. Default: none",
          &options.crash},
         {"--melody", "FILE",
          "MIDI file with a melody that is played along: on the heads of a plan, else\n"
          "every time. Default: none",
          &options.melody},
         {"--place", "WHO=MS,...",
          "Milliseconds behind the beat, -20 to 20: bass=+8,ride=-4. Default: on it",
          &options.place},
         {"--mix", "WHO=DB,...", "Decibels, -60 to 12, or off: drums=-6,bass=0,count=3. Default: 0",
          &options.mix},
         {"--pan", "WHO=PAN,...",
          "Left -1 to right 1: bass=-0.5,drums=0.5. Default: as on a bandstand", &options.pan},
         {"--seed", "N",
          "Another number, another bass line, other fills, another guitar part; 0 to\n"
          "1000000. Default: 1",
          &options.seed}});
}

}  // namespace compline::app
