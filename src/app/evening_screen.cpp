#include "evening_screen.hpp"

#include "accidentals.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/report/decided.hpp>
#include <compline/report/large_view.hpp>
#include <compline/report/remarks.hpp>
#include <compline/report/time_through_line.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::app {

namespace {

/// A period above which RtMidi's times of JACK's messages are worth a warning.
constexpr int coarse_period = 128;

void warn_of_coarse_times(const live::MidiInput& input, const practice::Machine& machine) {
    if (input.api != live::coarse_jack || machine.period_frames <= coarse_period) return;
    say(
        fmt::format("{} knows when you play only to the period, here {:.1f} ms: use "
                    "--in JACK:{}, or a period of {} or less",
                    live::coarse_jack, 1000.0 * machine.period_frames / machine.rate_hz, input.name,
                    coarse_period));
}

}  // namespace

void EveningScreen::introduce(const live::GearChoice& gear, const practice::Machine& machine,
                              const roadmap::RoadMap& map) {
    print(fmt::format("{}: {}, {} Hz, {} frames{}", map.form().chart.title, machine.output,
                      machine.rate_hz, machine.period_frames,
                      gear.input || gear.sound ? "; listening to " + machine.input : ""));
    if (!gear.input && gear.sound) print("heard by its sound: time alone is judged, tones are not");
    if (gear.pedal) print(fmt::format("the pedal: {}:{}", gear.pedal->api, gear.pedal->name));
    if (!map.way().is_uniform()) {
        print("the road map: " + chart::road_map_in_words(map.way(), map.form()));
    }
    if (gear.input) warn_of_coarse_times(*gear.input, machine);
}

void EveningScreen::show(const practice::State& state, const live::Rig& rig) {
    say_cable("guitar", rig.guitar(), said_guitar_out_);
    say_cable("pedal", rig.pedal(), said_pedal_out_);
    say_what_is_heard(state);
    say_how_it_went(state);
    say_remarks(state);
    draw(state);
}

void EveningScreen::say_cable(const char* whose, const live::WatchedPort& port, bool& said_out) {
    if (port.is_out() == said_out) return;
    said_out = port.is_out();
    print(said_out ? fmt::format("the {}'s cable is out: {} is waited for", whose, port.name())
                   : fmt::format("the {}'s cable is in again: {}", whose, port.name()));
}

void EveningScreen::warn_of_disk(const std::string& complaint) {
    if (complaint.empty() || warned_of_disk_) return;
    warned_of_disk_ = true;
    print(complaint + "; the take is kept in memory until the end");
}

void EveningScreen::change_view() {
    view_ = view_ == report::View::rows ? report::View::large : report::View::rows;
}

void EveningScreen::start_over() {
    teller_.start_over();
    times_said_ = 0;
    changes_said_ = 0;
    remarks_said_ = 0;
}

void EveningScreen::print(const std::string& line) { screen_.print(as_shown(line)); }

void EveningScreen::say_what_is_heard(const practice::State& state) {
    if (said_strings_ || !state.strings) return;
    said_strings_ = true;
    print("your MIDI pickup: " + listen::in_words(*state.strings));
}

void EveningScreen::say_how_it_went(const practice::State& state) {
    for (; changes_said_ < state.verdicts.size(); ++changes_said_) {
        print(report::verdict_line(state.verdicts[changes_said_], state.map));
    }
    if (!state.lately) return;
    for (; times_said_ < state.times_over; ++times_said_) {
        print(report::time_through_line(state.lately->assessment, times_said_ + 1));
        const auto ladder = report::ladder_line(state, times_said_ + 1);
        if (!ladder.empty()) print(ladder);
    }
}

void EveningScreen::say_remarks(const practice::State& state) {
    for (; remarks_said_ < state.remarks.size(); ++remarks_said_) {
        print(report::in_words(state.remarks[remarks_said_]));
    }
}

/// Rows of the whole form: a loop may be anywhere in it.
void EveningScreen::draw(const practice::State& state) {
    const auto& form = state.map.form();
    if (const int columns = screen_.columns(); columns != columns_) {
        columns_ = columns;
        rows_ = report::chart_rows(form, form.all(), columns);
    }
    const auto* const voicings = asked_.voicings ? &*asked_.voicings : nullptr;
    const report::Playing playing{
        state.map,
        screen_.attributes(),
        voicings,
        report::decided_in(state),
        {columns_, screen_.lines()},
        view_,
        asked_.hand,
        asked_.hears_sound() ? listen::HeardBy::sound : listen::HeardBy::midi};
    const auto position = state.map.position_at(state.now);
    if (!screen_.draws()) {
        for (const auto& line : teller_.news(rows_, playing, position)) print(line);
        return;
    }
    auto lines = view_ == report::View::large
                     ? report::large_view(rows_, playing, position, screen_.printed())
                     : report::now_playing(rows_, playing, position);
    for (auto& line : lines) line = as_shown(std::move(line));
    screen_.draw(lines);
}

}  // namespace compline::app
