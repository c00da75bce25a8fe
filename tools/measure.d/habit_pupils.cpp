#include "measure.d/habit_pupils.hpp"

#include "measure.d/between.hpp"
#include "measure.d/charts.hpp"

#include <cmath>

namespace compline::measure {

namespace {

using assess::HabitKind;
using simulate::Chance;
using simulate::Comping;
using simulate::Deed;
using time::Seconds;
using Strikes = simulate::Planted::Strikes;

constexpr double off_beats_ms = 50;
constexpr std::array<Comping, 5> beats = {Comping::charleston, Comping::four_to_the_bar,
                                          Comping::long_chords, Comping::charleston,
                                          Comping::fills};

/// Scatter, place, legato or not: of anybody.
simulate::Habits somebody(Chance& chance) {
    simulate::Habits habits;
    habits.comping = beats[chance.below(beats.size())];
    habits.place = Seconds(chance.below(2) == 0 ? 0 : between(chance, 0, 0.020));
    habits.scatter = Seconds(between(chance, 0.010, 0.020));
    habits.overlap = Seconds(between(chance, 0, 0.06));
    return habits;
}

void err_by_chance(simulate::Habits& habits, double rate) {
    for (const auto deed : {Deed::late, Deed::early, Deed::missed, Deed::wrong_fret,
                            Deed::wrong_third, Deed::stuck_finger, Deed::missing_seventh}) {
        habits.rate(deed) = rate / 3;
    }
    habits.rate(Deed::late) = rate;
}

Pupil pupil_of(const std::vector<chart::Form>& forms, const simulate::Habits& habits, int times,
               Chance& chance, std::uint64_t seed) {
    // The guitarist counts in quarters: where a meter does not, his off-beats are none.
    const bool by_chance = chance.below(3) != 0 || habits.off_beats != Seconds(0);
    auto form = by_chance ? any_chart(chance) : forms[chance.below(forms.size())];
    auto asked = roadmap::Asked::of(form.whole(), times);
    asked.tempo = time::Bpm(std::round(between(chance, 90, 200)));
    const auto channels =
        static_cast<simulate::ChannelLayout>(chance.below(simulate::channels_count - 1));
    return {roadmap::RoadMap(std::move(form), std::move(asked)), habits, channels, seed};
}

simulate::Habits habits_with(const PlantedHabit& planted, double strength, Chance& chance) {
    auto habits = somebody(chance);
    err_by_chance(habits, 0.03);
    habits.planted.strikes = planted.strikes;
    habits.planted.deed = planted.deed;
    habits.planted.rate = strength;
    if (planted.kind == HabitKind::wide_move) habits.wide_moves = 0.15;
    if (planted.kind == HabitKind::after_fill) habits.comping = Comping::fills;
    if (planted.kind == HabitKind::off_beats) {
        habits.comping = Comping::charleston;
        const double way = chance.below(2) == 0 ? -1 : 1;
        habits.off_beats = Seconds(way * strength * off_beats_ms / 1000);
    }
    if (planted.kind == HabitKind::string) {
        habits.slips_on = 1 + static_cast<int>(chance.below(4));
        habits.planted.rate = strength / 4;  // a finger, not the hand
        habits.rate(Deed::wrong_fret) = 0;
    }
    return habits;
}

}  // namespace

const std::vector<PlantedHabit>& planted_habits() {
    static const std::vector<PlantedHabit> all = {
        {"a place, late", HabitKind::place, Strikes::at_one_place, Deed::late},
        {"a place, missed", HabitKind::place, Strikes::at_one_place, Deed::missed},
        {"a place, wrong", HabitKind::place, Strikes::at_one_place, Deed::wrong_fret},
        {"a transition, late", HabitKind::transition, Strikes::on_a_transition, Deed::late},
        {"wide moves, late", HabitKind::wide_move, Strikes::on_wide_moves, Deed::late},
        {"wide moves, waits", HabitKind::wide_move, Strikes::on_wide_moves, Deed::wait},
        {"after fills, late", HabitKind::after_fill, Strikes::after_fills, Deed::late},
        {"into sections, late", HabitKind::into_section, Strikes::into_sections, Deed::late},
        {"a quality, late", HabitKind::quality, Strikes::on_a_quality, Deed::late},
        {"a quality, wrong", HabitKind::quality, Strikes::on_a_quality, Deed::wrong_fret},
        {"its third", HabitKind::tone, Strikes::on_a_quality, Deed::wrong_third},
        {"its seventh", HabitKind::tone, Strikes::on_a_quality, Deed::missing_seventh},
        {"a string", HabitKind::string, Strikes::anywhere, Deed::wrong_fret},
        {"off-beats", HabitKind::off_beats, Strikes::nowhere, Deed::late},
        {"waits at a place", HabitKind::wait, Strikes::at_one_place, Deed::wait},
        {"a place, left out", HabitKind::left_out, Strikes::at_one_place, Deed::laid_out},
    };
    return all;
}

Pupil pupil_with(const std::vector<chart::Form>& forms, const PlantedHabit& planted,
                 double strength, int times, Chance& chance, std::uint64_t seed) {
    const auto habits = habits_with(planted, strength, chance);
    return pupil_of(forms, habits, times, chance, seed);
}

Pupil pupil_without(const std::vector<chart::Form>& forms, int n, int times, Chance& chance,
                    std::uint64_t seed) {
    auto habits = somebody(chance);
    habits.comping = static_cast<Comping>(n % simulate::comping_count);
    habits.wide_moves = between(chance, 0, 0.2);
    for (const auto deed : {Deed::push, Deed::later_entry, Deed::broken, Deed::lead_in,
                            Deed::approach, Deed::passing, Deed::dead_strum}) {
        habits.rate(deed) = 0.02;
    }
    err_by_chance(habits, between(chance, 0, 0.06));
    return pupil_of(forms, habits, times, chance, seed);
}

}  // namespace compline::measure
