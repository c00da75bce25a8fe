#include "calibration_notes.hpp"

#include "calibration_gear.hpp"
#include "command.hpp"
#include "evening_gear.hpp"
#include "keys.hpp"
#include "stop_signals.hpp"

#include <compline/chart/chart.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/live/device_choice.hpp>
#include <compline/practice/click_delay.hpp>
#include <compline/practice/pickup_delay.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <thread>

namespace compline::app {

namespace {

constexpr std::chrono::milliseconds between_looks{10};
constexpr std::chrono::seconds longest_wait{60};

listen::PickupSettings pickup_of(const CalibrationOptions& options) {
    listen::PickupSettings pickup;
    pickup.fretboard = read_fretboard(options.guitar);
    listen::read_pickup(options.pickup.text, pickup);
    pickup.delay = {};  // nothing is taken off what is to be measured
    return pickup;
}

}  // namespace

int NotesBeingPlayed::notes_on_each(const CalibrationOptions& options, Band band) {
    return options.notes.value_or(band == Band::click ? practice::notes_on_clicks
                                                      : practice::enough_notes);
}

/// Bars without a chord: nobody plays them but sticks, where they are wanted.
NotesBeingPlayed::Meanwhile NotesBeingPlayed::meanwhile(Band wanted, double tempo) {
    const auto chart = chart::read_chart(
        "title: Calibration\nkey: C\ntempo: 120\nfeel: straight\nsections:\n"
        "  A: N.C. | N.C. | N.C. | N.C.\n",
        "calibration");
    auto form = chart::unroll(chart);
    BandOptions options;
    options.manner.bass = chart::Bass::off;
    if (wanted == Band::click) {
        options.click = "1 2 3 4";
    } else {
        options.manner.drums = chart::Drums::off;
        options.count_in = 0;
    }
    auto band = read_band(options, form, {"", std::nullopt, true}, tempo);
    return {roadmap::RoadMap(std::move(form), band.asked), std::move(band)};
}

live::Gear NotesBeingPlayed::open(const CalibrationOptions& options, Band band,
                                  const band::Players& players) {
    live::GearChoice choice;
    choice.output = output_meant(options.out);
    choice.input = input_meant(options.in);
    choice.stream = options.stream();
    if (band == Band::silent) {
        choice.sound = sound_meant(options.sound_in, choice.output.api, "--sound-in");
    }
    return live::open_gear(choice, players);
}

NotesBeingPlayed::NotesBeingPlayed(const CalibrationOptions& options, Band band)
    : notes_asked_(notes_on_each(options, band)),
      pickup_(pickup_of(options)),
      meanwhile_(meanwhile(band, options.tempo)),
      rig_(open(options, band, meanwhile_.band.players), meanwhile_.map, meanwhile_.band.players,
           meanwhile_.band.stage) {
    if (rig_.ear() != nullptr) ear_.emplace(*rig_.ear());
}

std::vector<int> NotesBeingPlayed::strings() const {
    std::vector<int> strings;
    for (int string = 1; string <= pickup_.fretboard.strings(); ++string) strings.push_back(string);
    return strings;
}

std::vector<listen::Note> NotesBeingPlayed::notes() const {
    return listen::hear(rig_.session().played().messages, pickup_, rig_.now()).notes;
}

std::vector<listen::Note> NotesBeingPlayed::notes_in_the_stream() const {
    auto all = notes();
    for (auto& note : all) {
        note.on = rig_.session().in_the_stream(note.on);
        note.off = rig_.session().in_the_stream(note.off);
    }
    return all;
}

/// By string from 1 on; of one channel for all, all together under 0.
std::vector<int> NotesBeingPlayed::counts() const {
    std::vector<int> counts(static_cast<std::size_t>(pickup_.fretboard.strings()) + 1);
    for (const auto& note : notes()) ++counts[static_cast<std::size_t>(note.string.value_or(0))];
    return counts;
}

bool NotesBeingPlayed::are_enough(const std::vector<int>& counts) const {
    if (counts[0] > 0) return counts[0] >= notes_asked_ * pickup_.fretboard.strings();
    return std::all_of(counts.begin() + 1, counts.end(),
                       [&](int count) { return count >= notes_asked_; });
}

std::string NotesBeingPlayed::how_far(const std::vector<int>& counts) const {
    if (counts[0] > 0) {
        return fmt::format("{} of {} notes", counts[0], notes_asked_ * pickup_.fretboard.strings());
    }
    std::string words;
    for (int string = pickup_.fretboard.strings(); string >= 1; --string) {
        words += fmt::format("{}string {}: {}", words.empty() ? "" : "  ", string,
                             counts[static_cast<std::size_t>(string)]);
    }
    return words;
}

void NotesBeingPlayed::look() {
    (void)rig_.listen();
    if (!ear_) return;
    for (const auto& onset : ear_->read()) onsets_.push_back(onset);
}

bool NotesBeingPlayed::collect() {
    Keys keys;
    WaitingLine line;
    rig_.start();
    std::size_t messages = 0;
    auto news = std::chrono::steady_clock::now();
    while (std::chrono::steady_clock::now() - news < longest_wait) {
        look();
        const auto come = rig_.session().played().messages.size();
        if (come != messages) {
            news = std::chrono::steady_clock::now();
            messages = come;
            const auto by_string = counts();
            line.show(how_far(by_string));
            if (are_enough(by_string)) break;
        }
        if (const auto trouble = rig_.trouble(); !trouble.empty()) {
            throw live::DeviceError(trouble);
        }
        const auto key = keys.read();
        if (key && is_enter(*key)) break;
        if (key == KeyPress('q') || stop_was_asked()) return false;
        std::this_thread::sleep_for(between_looks);
    }
    // The sound of the last note is sure a moment later.
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    look();
    rig_.stop();
    return true;
}

}  // namespace compline::app
