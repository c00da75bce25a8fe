#include "gear_options.hpp"

#include <compline/practice/pedal.hpp>

#include <fmt/format.h>

#include <string>
#include <utility>

namespace compline::app {

namespace {

constexpr int slowest_rate = 8000;
constexpr int fastest_rate = 384000;
constexpr int shortest_period = 16;
constexpr int longest_period = 8192;

/// What is wrong with its words is known at once.
ValueReader pedal_reader(AsGiven* place) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                read_option(name, text, Echo::value,
                            [](const std::string& words) { (void)practice::Pedal(words); });
                *place = {text, name};
            }};
}

void refuse_unheard_pedal(const GearOptions& options) {
    if (options.pedal.empty() && !options.pedal_in.empty()) {
        throw BadInput(
            "--pedal-in says where the pedal is, not what it asks for: write --pedal "
            "\"64=loop here\" too");
    }
    const bool is_of_guitar = options.pedal_in.empty() || options.pedal_in.text == options.in.text;
    if (is_option_name(options.pedal.name) && is_of_guitar && !options.hears_midi()) {
        throw BadInput(
            fmt::format("--pedal with --in {}: nobody listens to the guitar's port: say where the "
                        "pedal is by --pedal-in",
                        options.in.text));
    }
}

}  // namespace

std::vector<Option> device_rows(const DevicePlaces& places) {
    std::vector<Option> rows = {
        {"--out", "OUTPUT",
         "What the band plays through: part of a name that `compline devices`\n"
         "lists, or API:PART.",
         "the default output", as_given(places.out)},
        {"--in", "INPUT",
         "Where your guitar's MIDI comes in: part of a name, API:PART, or none\n"
         "(the band plays, nobody listens); or its sound: sound:PART.",
         "the only one there is", as_given(places.in)},
        {"--rate", "HZ", "Frames a second.", "the output's own",
         whole_number(slowest_rate, fastest_rate, places.rate)},
        {"--period", "FRAMES",
         "Frames a callback: fewer is a shorter delay, more is safer. A JACK\n"
         "server has its own.",
         "256", whole_number(shortest_period, longest_period, places.period)}};
    for (auto& row : rows) row = as_setting(std::move(row));
    return rows;
}

std::vector<Option> options_of(GearOptions& options, GuitarOptions& guitar) {
    std::vector<Option> rows = {
        {"--pedal", "SWITCHES",
         "What the switches of a MIDI pedal ask for: \"64=loop here, 67=pause\". A\n"
         "number is a controller's; program 3 and note 36 are switches too. They\n"
         "ask to loop here, leave the loop, pause, go on, cue (the same), slower,\n"
         "faster, drums, bass (out, or in again), from the top, start over, stop.",
         "none", pedal_reader(&options.pedal)},
        {"--pedal-in", "INPUT", "Where the pedal's MIDI comes in, as --in says it.",
         "the guitar's input", as_given(&options.pedal_in)}};
    for (auto& row : rows) row = as_setting(std::move(row));
    return joined({device_rows({&options.out, &options.in, &options.rate, &options.period}),
                   rows,
                   options_of(options.delays),
                   {which_guitar(guitar)},
                   options_of(guitar),
                   {left_handed_option(guitar)}});
}

void read_gear(const GearOptions& options, AskedEvening& evening) {
    refuse_unheard_pedal(options);
    evening.out = options.out;
    evening.in = options.in;
    const bool is_of_guitar = options.pedal_in.empty();
    // A pedal that is always there, by the settings, on a port that nobody listens to this evening.
    if (options.hears_midi() || !is_of_guitar) evening.pedal = options.pedal;
    evening.pedal_in = options.pedal_in;
    if (options.rate) evening.rate.emplace(*options.rate);
    evening.period = options.period;
    // The settings' is of the MIDI.
    if (options.hears_midi() || options.delays.offset_typed) {
        evening.offset = time::from_milliseconds(options.delays.offset_ms);
    }
    evening.string_offsets = options.delays.strings_of(evening.fretboard);
    evening.round_trip = options.delays.round_trip;
}

}  // namespace compline::app
