#include "band_options.hpp"

#include <compline/band/melody.hpp>
#include <compline/chart/read_manner.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/files/file_io.hpp>
#include <compline/text/words.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

namespace compline::app {

bool asks_for_road_map(const BandOptions& options) {
    return !options.road_map.empty() && options.road_map != "none";
}

namespace {

constexpr int most_seeds = 1'000'000;
constexpr std::size_t largest_melody = std::size_t{4} << 20U;  // bytes

chart::Way read_way(const BandOptions& options, const chart::Form& form, const Stay& stay) {
    if (asks_for_road_map(options)) {
        if (stay.asked) {
            throw BadInput(
                "--road-map says what is played and how often: leave out --bars and --times");
        }
        return read_option("--road-map", options.road_map, Echo::value,
                           [&](const auto& text) { return chart::read_road_map(form, text); });
    }
    if (!stay.asked && options.road_map.empty()) {
        if (auto own = chart::own_road_map(form)) return *own;
    }
    return chart::Way::through(form, read_bars(form, stay.bars).value_or(form.whole()), stay.times);
}

/// In 6/8 the beats are 1 and 4.
std::string beats_advice(time::Meter meter) {
    if (!meter.is_compound()) return fmt::format("write 1 to {}, such as \"2 4\"", meter.beats());
    std::vector<std::string> names;
    names.reserve(static_cast<std::size_t>(meter.beats()));
    for (int beat = 0; beat < meter.beats(); ++beat) {
        names.push_back(time::beat_name(meter.beat() * beat, meter));
    }
    return fmt::format("write some of {}, such as \"{}\"", text::listed(names), names.back());
}

std::vector<int> read_hihat(const std::string& text, time::Meter meter) {
    const auto click = roadmap::read_click(text, meter);
    std::vector<int> beats;
    for (const auto at : click.positions) {
        if (click.every != 1 || at % meter.beat() != time::Ticks(0)) {
            throw BadInput("", "the foot closes on beats of every bar", beats_advice(meter));
        }
        beats.push_back(static_cast<int>(at / meter.beat()) + 1);
    }
    return beats;
}

std::vector<band::MelodyNote> load_melody(const std::string& path) {
    return text::read_at("--melody", [&] {
        const auto file = midi::load_smf(path, largest_melody);
        return text::read_at(files::name_of(path), [&] { return band::read_melody(file); });
    });
}

}  // namespace

void refuse_road_map(const BandOptions& options) {
    if (options.road_map.empty()) return;
    throw BadInput("--each-time and --road-map both say what is played: leave out one of them");
}

AskedBand read_band(const BandOptions& options, const chart::Form& form, const Stay& stay,
                    std::optional<double> tempo) {
    const auto meter = form.chart.meter;
    AskedBand band;
    auto& asked = band.asked;
    asked.way = read_way(options, form, stay);
    asked.manner = options.manner;
    if (tempo) asked.tempo.emplace(*tempo);
    asked.swing = options.swing;
    asked.count_in_bars = options.count_in;
    if (!options.click.empty()) {
        if (options.manner.drums) {
            throw BadInput("--click is played in place of the drums: leave out one of them");
        }
        asked.click = read_option("--click", options.click, Echo::value, [&](const auto& text) {
            return roadmap::read_click(text, meter);
        });
    }
    asked.silence = options.silence;
    if (asked.silence) {
        text::read_at("--silence",
                      [&] { roadmap::refuse_lost_silence(*asked.silence, asked.way); });
    }
    auto& players = band.players;
    if (!options.hihat.empty()) {
        players.hihat_beats =
            read_option("--hi-hat", options.hihat, Echo::value,
                        [&](const auto& text) { return read_hihat(text, meter); });
    }
    players.fills = options.fills;
    players.crash = options.crash;
    players.seed = static_cast<std::uint64_t>(options.seed);
    if (!options.melody.empty()) players.melody = load_melody(options.melody);
    asked.melody = !players.melody.empty();
    band.stage = options.stage;
    if (!options.usual.mix.empty()) band::read_mix(options.usual.mix, band.stage);
    if (!options.usual.pan.empty()) band::read_pan(options.usual.pan, band.stage);
    return band;
}

namespace {

std::vector<Option> how_it_plays(BandOptions& options) {
    auto& manner = options.manner;
    return {{"--drums", "MANNER", "ride, brushes, hats (by foot, on 2 and 4), quarters or off.",
             "the\nchart's, else by tempo",
             read_by([&](const auto& text) { manner.drums = chart::read_drums_name(text); })},
            {"--bass", "MANNER",
             "walking, two-feel, roots or off; plain beside it or alone: no skip notes and\n"
             "no dead ones.",
             "the chart's, else by tempo", read_by([&](const auto& text) {
                 const auto wish = chart::read_bass_wish(text);
                 manner.bass = wish.bass;
                 manner.plain_bass = wish.plain;
             })},
            {"--feel", "FEEL", "swing, straight, bossa or ballad.", "the chart's",
             read_by([&](const auto& text) { manner.feel = chart::read_feel_name(text); })},
            {"--swing", "SWING", "Long to short eighth: auto (by tempo), 2:1, 1.8 or 62%.",
             "the chart's", read_by([&](const auto& text) {
                 options.swing = roadmap::AskedSwing{chart::read_swing_ratio(text)};
             })},
            {"--phrasing", "HOW",
             "even (time like a metronome's) or breathing (louder and softer over four bars,\n"
             "other rides, light fills; the time stays exact).",
             "the chart's, else even", read_by([&](const auto& text) {
                 manner.phrasing = chart::read_phrasing_name(text);
             })}};
}

std::vector<Option> time_and_silence(BandOptions& options) {
    return {{"--click", "BEATS",
             "A click in place of the drums, on these beats: \"2 4\", 4, \"2& 4&\"; 1/2 is\n"
             "beat 1 of every second bar.",
             "the drums", as_typed(&options.click)},
            {"--silence", "P:S",
             "The band leaves you alone: 4:4 plays four bars and is silent for four, over\n"
             "and over; \"4:4 drums\" leaves the bass, \"1:1 times\" counts times through.\n",
             "it stays",
             read_by([&](const auto& text) { options.silence = roadmap::read_silence(text); },
                     Echo::value)},
            {"--count-in", "BARS", "Bars counted in before the first beat: 0, 1 or 2.",
             "2, under 80 bpm 1", whole_number(0, 2, &options.count_in)}};
}

std::vector<Option> more_to_play(BandOptions& options) {
    return {{"--hi-hat", "BEATS",
             "Beats on which the foot closes the hi-hat, such as \"2 3\" in a waltz.\n",
             "2 and 4; in a waltz 2", as_typed(&options.hihat)},
            {"--fills", "", "A fill before each section.", "none", flag(&options.fills)},
            {"--crash", "", "A crash on the first beat of each time through.", "none",
             flag(&options.crash)},
            {"--melody", "FILE",
             "MIDI file with a melody that is played along: on the heads of a road map, else\n"
             "every time.",
             "none", file_name(&options.melody)}};
}

/// What a word says of the stage, kept until it is known whether anything else was asked.
ValueReader kept_words(std::string* place, void (*read)(std::string_view, band::Stage&)) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                band::Stage checked;
                read_option(name, text, Echo::value,
                            [&](const std::string& words) { read(words, checked); });
                *place = text;
            }};
}

std::vector<Option> bandstand(BandOptions& options) {
    auto& stage = options.stage;
    const Option mix = {
        "--mix", "WHO=DB,...", "Decibels, -60 to 12, or off: drums=-6,bass=0,count=3.", "0",
        read_by([&](const auto& text) { band::read_mix(text, stage); }, Echo::value)};
    const Option pan = {
        "--pan", "WHO=PAN,...", "Left -1 to right 1: bass=-0.5,drums=0.5.", "as on a bandstand",
        read_by([&](const auto& text) { band::read_pan(text, stage); }, Echo::value)};
    return {{"--place", "WHO=MS,...", "Milliseconds behind the beat, -20 to 20: bass=+8,ride=-4.",
             "on it",
             read_by([&](const auto& text) { band::read_placement(text, stage); }, Echo::value)},
            as_setting(mix, kept_words(&options.usual.mix, band::read_mix)),
            as_setting(pan, kept_words(&options.usual.pan, band::read_pan)),
            {"--seed", "N",
             "Another number, another bass line, other fills, another guitar part; 0 to\n1000000.",
             "1", whole_number(0, most_seeds, &options.seed)}};
}

}  // namespace

std::vector<Option> options_of(BandOptions& options) {
    const std::vector<Option> way = {
        {"--road-map", "MAP",
         "What is played in which order and how, such as \"intro 4; head: two-feel\n"
         "drums=brushes; solo x2: walking; head: two-feel; tag 3; held ending\".\n",
         "the chart's own; none passes that over", as_typed(&options.road_map), "--plan"}};
    return grouped("The band", joined({way, how_it_plays(options), time_and_silence(options),
                                       more_to_play(options), bandstand(options)}));
}

}  // namespace compline::app
