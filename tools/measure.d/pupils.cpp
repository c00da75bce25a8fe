#include "measure.d/pupils.hpp"

#include "measure.d/between.hpp"
#include "measure.d/charts.hpp"

#include <array>
#include <cmath>

namespace compline::measure {

namespace {

using simulate::Chance;
using simulate::Comping;
using simulate::Deed;
using simulate::Habits;
using time::Seconds;

constexpr double slowest_lesson = 70;
constexpr double fastest_lesson = 280;
constexpr int bars_enough = 24;

constexpr std::array<Comping, 12> in_turn = {
    Comping::two_and_four, Comping::four_to_the_bar, Comping::charleston,   Comping::pushes,
    Comping::off_beats,    Comping::two_and_four,    Comping::long_chords,  Comping::sparse,
    Comping::fills,        Comping::chord_melody,    Comping::two_and_four, Comping::bossa};

void sustain(Habits& habits, Chance& chance) {
    habits.overlap = Seconds(between(chance, 0, 0.08));
    const bool rings = habits.comping == Comping::long_chords ||
                       habits.comping == Comping::chord_melody || habits.comping == Comping::bossa;
    if (!rings && chance.below(3) == 0) habits.staccato = between(chance, 0.15, 0.5);
}

void go_wrong(Habits& habits, Chance& chance) {
    const auto kind = chance.below(10);
    if (kind < 2) return;
    if (kind == 2) {
        habits.waits =
            chance.below(2) == 0 ? simulate::Waits::on_wide_moves : simulate::Waits::at_one_place;
        habits.wide_moves = 0.15;
        return;
    }
    if (kind == 3) {
        habits.slow = {chance.below(2) == 0, true, chance.below(2) == 0};
        habits.slow.on_wide_moves = habits.slow.on_wide_moves || !habits.slow.into_sections;
        habits.wide_moves = 0.2;
        return;
    }
    habits.rates.fill(0.035);
    // These find a place more seldom than the others.
    habits.rate(Deed::lost) = 0.15;
    habits.rate(Deed::early) = 0.12;
    habits.rate(Deed::wait) = 0;  // a habit or nothing: once, it is a later entry
}

Habits habits_of(int n, Chance& chance) {
    Habits habits;
    habits.comping = in_turn.at(static_cast<std::size_t>(n) % in_turn.size());
    habits.place = Seconds(chance.below(2) == 0 ? 0 : between(chance, 0, 0.030));
    habits.scatter = Seconds(between(chance, 0.010, 0.025));
    sustain(habits, chance);
    go_wrong(habits, chance);
    return habits;
}

}  // namespace

Pupil pupil(const std::vector<chart::Form>& forms, std::uint64_t seed, int n) {
    const auto own = seed * 1000003 + static_cast<std::uint64_t>(n);
    Chance chance(~own);
    const auto habits = habits_of(n, chance);
    auto form = chance.below(2) == 0 ? forms[chance.below(forms.size())] : any_chart(chance);
    const int times = form.whole().bars() < bars_enough ? 3 : 2;
    auto asked = roadmap::Asked::of(form.whole(), times);
    asked.tempo = time::Bpm(
        std::round(slowest_lesson * std::pow(fastest_lesson / slowest_lesson, chance.uniform())));
    if (habits.comping == Comping::bossa) asked.manner.feel = chart::Feel::bossa;
    const auto channels =
        static_cast<simulate::ChannelLayout>(chance.below(simulate::channels_count));
    return {roadmap::RoadMap(std::move(form), std::move(asked)), habits, channels, own};
}

}  // namespace compline::measure
