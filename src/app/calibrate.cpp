#include "calibration.hpp"
#include "calibration_gear.hpp"
#include "command.hpp"
#include "evening_gear.hpp"
#include "gear_options.hpp"
#include "keep_settings.hpp"
#include "settings_file.hpp"
#include "stop_signals.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/live/devices.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <memory>

namespace compline::app {

namespace {

struct CalibrateOptions {
    CalibrationOptions asked;
    std::optional<CalibrationWay> way;
    bool write = false;
    bool json = false;
};

constexpr const char* wire_words =
    "by wire: an output back into an input, by a cable: the round trip";
constexpr const char* guitar_words =
    "by the guitar's own sound, in an input beside its MIDI: how far the MIDI is\n"
    "    behind it";
constexpr const char* click_words =
    "by playing to a click, without a sound input: what the strings differ by";

/// One of the ways, and whether it can be gone with what is plugged in.
void print_way(CalibrationWay way, const char* words, const std::string& lacking) {
    fmt::print("  {}\n", words);
    if (lacking.empty()) {
        fmt::print("      compline calibrate {}\n", name_of(way));
    } else {
        fmt::print("      not now: {}\n", lacking);
    }
}

/// Without a way: which there are.
Status tell_ways() {
    const bool sound = !live::sound_inputs().found.empty();
    const bool midi = !live::midi_inputs().found.empty();
    const char* no_sound = "there is no sound input";
    const char* no_midi = "there is no MIDI input";
    fmt::print("What lies between you and the program can be measured, the best way first:\n");
    print_way(CalibrationWay::wire, wire_words, sound ? "" : no_sound);
    print_way(CalibrationWay::guitar, guitar_words, !sound ? no_sound : midi ? "" : no_midi);
    print_way(CalibrationWay::click, click_words, midi ? "" : no_midi);
    fmt::print("What is found is shown, and kept in your settings only when you ask for it.\n");
    return Status::done;
}

std::optional<Calibration> measure(CalibrationWay way, const CalibrationOptions& options) {
    switch (way) {
        case CalibrationWay::wire:
            return calibrate_by_wire(options);
        case CalibrationWay::guitar:
            return calibrate_by_guitar(options);
        case CalibrationWay::click:
            return calibrate_by_click(options);
    }
    return std::nullopt;
}

const Choices<CalibrationWay>& ways() {
    static const Choices<CalibrationWay> all = {
        {name_of(CalibrationWay::wire), CalibrationWay::wire},
        {name_of(CalibrationWay::guitar), CalibrationWay::guitar},
        {name_of(CalibrationWay::click), CalibrationWay::click}};
    return all;
}

void keep(const CalibrateOptions& options, const Calibration& found) {
    std::vector<settings::Setting> of_guitar;
    std::vector<settings::Setting> of_all;
    for (const auto& [key, value, is_of_guitar] : found.keep) {
        (is_of_guitar ? of_guitar : of_all).push_back({key, value, "", 1});
    }
    const auto settings = load_settings(settings_keys(all_commands()));
    const auto guitar =
        guitar_meant(options.asked.guitar.name, input_name(options.asked.in), settings);
    keep_settings({{"", of_all}, {guitar, of_guitar}});
    say(fmt::format("kept in {}{}", path_of_settings().string(),
                    guitar.empty() || of_guitar.empty() ? "" : ", of " + text::printable(guitar)));
}

/// What is missing besides, where the round trip of the interface is not known.
std::string without_round_trip(CalibrationWay way) {
    const auto settings = load_settings(settings_keys(all_commands()));
    if (way != CalibrationWay::guitar || settings.find("round-trip") != nullptr) return "";
    return "No round trip is known: your notes will be judged later than they were by what\n"
           "the input itself takes, some milliseconds. compline calibrate wire measures it.\n";
}

/// Whether what was found is to be kept: asked for, or said at the terminal.
bool is_wanted(const CalibrateOptions& options) {
    if (options.write) return true;
    if (options.json || ::isatty(STDIN_FILENO) != 1) return false;
    return yes_pressed("Keep it in your settings? y, or any other key:");
}

Status run(const CalibrateOptions& options) {
    if (!options.way) return tell_ways();
    const StopSignals signals;
    const auto found = measure(*options.way, options.asked);
    if (!found) {
        say("left: nothing was measured, nothing is kept");
        return Status::done;
    }
    if (options.json) {
        fmt::print("{}\n", found->json);
    } else {
        fmt::print("{}", found->words);
        if (!found->keep.empty()) fmt::print("{}", without_round_trip(*options.way));
    }
    std::fflush(stdout);
    if (found->keep.empty()) return Status::could_not;
    if (is_wanted(options)) {
        keep(options, *found);
    } else if (!options.json) {
        say("nothing is kept; --write keeps it");
    }
    return Status::done;
}

Option pickup_row(AsGiven& pickup) {
    const ValueReader checked{ValueReader::Takes::one,
                              [&pickup](const std::string& name, const std::string& text) {
                                  read_option(name, text, Echo::value, [](const auto& words) {
                                      listen::PickupSettings settings;
                                      listen::read_pickup(words, settings);
                                  });
                                  pickup = {text, name};
                              }};
    return of_guitar(as_setting({"--midi-pickup", "WORDS",
                                 "What your unit is set to, as compline practice has it.",
                                 "found from what you play", checked}));
}

std::vector<Option> rows(CalibrateOptions& options) {
    auto& asked = options.asked;
    return joined(
        {{{"WAY", "", "wire, guitar or click; left out: which there are with what is plugged in.",
           "", one_of(ways(), &options.way)}},
         device_rows({&asked.out, &asked.in, &asked.rate, &asked.period}),
         {as_setting({"--sound-in", "INPUT",
                      "Where sound comes in: part of a name that `compline devices` lists,\n"
                      "API:PART, and /2 behind it for its second channel alone. Of the output's\n"
                      "API.",
                      "the default input", as_given(&asked.sound_in)}),
          {"--level", "DB", "How loud the clicks of the wire are, in decibels of full scale.",
           "-30", number(-60, -3, &asked.level_db)},
          {"--clicks", "N", "By the wire, 4 to 100.", "16", whole_number(4, 100, &asked.clicks)},
          {"--notes", "N", "On each string, 8 to 64.", "24, on the click 16",
           whole_number(8, 64, &asked.notes)},
          {"--tempo", "BPM", "Of the click.", "80", number(30, 240, &asked.tempo)},
          pickup_row(asked.pickup),
          which_guitar(asked.guitar)},
         options_of(asked.guitar),
         {{"--write", "", "What was found goes into your settings, unasked.", "you are asked",
           flag(&options.write)},
          {"--json", "", "What was found, as JSON.", "in words", flag(&options.json)}}});
}

}  // namespace

live::AudioStream::Request CalibrationOptions::stream() const {
    live::AudioStream::Request request;
    if (rate) request.rate.emplace(*rate);
    request.period = period;
    return request;
}

const char* name_of(CalibrationWay way) {
    switch (way) {
        case CalibrationWay::wire:
            return "wire";
        case CalibrationWay::guitar:
            return "guitar";
        case CalibrationWay::click:
            return "click";
    }
    return "";
}

std::optional<Calibration> calibrate(const std::string& way, const CalibrationOptions& options) {
    CalibrationWay meant = CalibrationWay::wire;
    one_of(ways(), &meant).read("WAY", way);
    return measure(meant, options);
}

ProgramCommand calibrate_command() {
    const auto options = std::make_shared<CalibrateOptions>();
    ProgramCommand command{
        "calibrate", "Measure what lies between you and the program", rows(*options),
        [options] { return run(*options); },
        "A loop from an output into an input can feed back and be loud at once: take your\n"
        "headphones off and turn the amplifier down before."};
    command.port = [options] { return input_name(options->asked.in); };
    return command;
}

}  // namespace compline::app
