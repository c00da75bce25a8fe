#include "rough_pickup_parts.hpp"

#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::simulate {

namespace {

using time::from_milliseconds;
using time::Seconds;

constexpr std::array<std::string_view, fault_count> fault_names = {
    "ghost",   "double trigger", "flicker", "lift-off", "slide",
    "passing", "vibrato",        "dropped", "lost end", "late end"};
constexpr std::array<std::string_view, wear_count> wear_names = {"none", "low", "moderate", "high"};

void check_range(std::string_view what, double found, double low, double high) {
    if (found >= low && found <= high) return;  // not NaN
    throw text::BadInput(
        fmt::format("{}: found {:g}, expected {:g} to {:g}", what, found, low, high));
}

listen::Note note_of(const PlayedNote& played, const guitar::Fretboard& fretboard) {
    listen::Note note;
    note.on = played.on;
    note.off = played.off;
    note.note = harmony::MidiNote(played.key);
    note.velocity = played.velocity;
    note.string = played.string;
    note.fret = fretboard.fret(played.string, note.note);
    note.slid = played.slid;
    return note;
}

void keep_truth(Sending& sending) {
    for (const auto& note : sending.played) {
        sending.take.truth.push_back({note_of(note, sending.rough.fretboard), note.dropped});
        if (!note.dropped) continue;
        SentNote missed;
        missed.string = note.string;
        missed.key = note.key;
        missed.velocity = note.velocity;
        missed.on = note.on + sending.delay_of(note.string, note.key);
        missed.off = missed.on + (note.off - note.on);
        sending.done(Fault::dropped, missed);
    }
}

}  // namespace

std::string_view name_of(Fault fault) { return fault_names[static_cast<std::size_t>(fault)]; }
std::string_view name_of(Wear wear) { return wear_names[static_cast<std::size_t>(wear)]; }

std::vector<listen::Note> RoughTake::audible() const {
    std::vector<listen::Note> notes;
    for (const auto& it : truth) {
        if (!it.dropped) notes.push_back(it.note);
    }
    return notes;
}

void Sending::done(Fault fault, const SentNote& what) {
    ++take.counts[static_cast<std::size_t>(fault)];
    take.faults.push_back({fault, what.string, harmony::MidiNote(what.key),
                           what.on - delay_of(what.string, what.key), what.off - what.on,
                           what.velocity});
}

void check(const Roughness& rough) {
    check_range("delay, ms", rough.delay.constant.milliseconds(), 0, 100);
    check_range("delay, cycles", rough.delay.cycles, 0, 10);
    for (const auto& string : rough.delay.by_string) {
        check_range("delay of a string, ms", string.milliseconds(), -50, 50);
    }
    check_range("scatter, ms", rough.scatter.milliseconds(), 0, 20);
    check_range("velocity scatter", rough.velocity_sd, 0, 40);
    check_range("ghosts", rough.ghosts, 0, 1);
    check_range("double triggers", rough.double_triggers, 0, 1);
    check_range("flickers", rough.flickers, 0, 1);
    check_range("lift-offs", rough.lift_offs, 0, 1);
    check_range("slides", rough.slides, 0, 1);
    check_range("bend range, semitones", rough.bend_range, 1, 24);
    check_range("vibrato", rough.vibrato, 0, 1);
    check_range("dropped", rough.dropped, 0, 1);
    check_range("lost ends", rough.lost_offs, 0, 1);
    check_range("late ends", rough.late_offs, 0, 1);
    const int channels = rough.one_channel ? 1 : rough.fretboard.strings();
    check_range("first channel", rough.strings.first_channel, 1, 17 - channels);
}

RoughTake roughen(std::span<const midi::TimedMessage> clean, const Roughness& roughness,
                  std::uint64_t seed) {
    check(roughness);
    Sending sending{roughness, seed, read_clean(clean, roughness.fretboard), {}, {}, {}, {}};
    drop_soft_notes(sending);
    scatter_velocities(sending);
    choose_slides(sending);
    keep_truth(sending);
    send_all(sending);
    send_slides(sending);
    flicker(sending);
    trigger_twice(sending);
    sway(sending);
    ring_on_lift_off(sending);
    end_late(sending);
    lose_ends(sending);
    add_ghosts(sending);
    sending.take.messages = messages_of(sending);
    transport(sending.take.messages, roughness.transport);
    std::stable_sort(sending.take.faults.begin(), sending.take.faults.end(),
                     [](const FaultDone& a, const FaultDone& b) { return a.at < b.at; });
    return std::move(sending.take);
}

listen::PickupSettings listening_to(const Roughness& roughness) {
    listen::PickupSettings settings;
    settings.fretboard = roughness.fretboard;
    settings.delay = roughness.delay;
    settings.one_channel = roughness.one_channel;
    if (!roughness.one_channel) settings.strings = roughness.strings;
    if (!roughness.tells_bend_range) settings.bend_range = roughness.bend_range;
    return settings;
}

namespace {

Roughness moderate() {
    Roughness rough;
    rough.delay = {Seconds(0), 1.5};
    rough.scatter = from_milliseconds(1);
    rough.velocity_sd = 6;
    rough.ghosts = 0.05;
    rough.double_triggers = 0.05;
    rough.flickers = 0.03;
    rough.lift_offs = 0.05;
    rough.slides = 0.20;
    rough.bend_range = 12;
    rough.tells_bend_range = true;
    rough.transport = Transport::usb;
    return rough;
}

Roughness low() {
    Roughness rough = moderate();
    rough.scatter = from_milliseconds(0.5);
    rough.velocity_sd = 4;
    rough.ghosts = 0.015;
    rough.double_triggers = 0.015;
    rough.flickers = 0.01;
    rough.lift_offs = 0.015;
    rough.slides = 0.07;
    return rough;
}

Roughness high() {
    Roughness rough = moderate();
    rough.delay = {from_milliseconds(2), 1.5};
    rough.scatter = from_milliseconds(2.5);
    rough.velocity_sd = 12;
    rough.ghosts = 0.15;
    rough.double_triggers = 0.15;
    rough.flickers = 0.10;
    rough.lift_offs = 0.15;
    rough.slides = 0.50;
    rough.bend_range = 24;
    rough.vibrato = 0.10;
    rough.dropped = 0.10;
    rough.lost_offs = 0.01;
    rough.late_offs = 0.10;
    rough.transport = Transport::din;
    return rough;
}

}  // namespace

Roughness roughness_of(Wear wear) {
    switch (wear) {
        case Wear::low:
            return low();
        case Wear::moderate:
            return moderate();
        case Wear::high:
            return high();
        case Wear::none:
            break;
    }
    return {};
}

}  // namespace compline::simulate
