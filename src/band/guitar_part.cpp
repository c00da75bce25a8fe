#include "guitar_part.hpp"

#include <cmath>
#include <vector>

namespace compline::band {

namespace {

/// From one string of a strum to the next.
constexpr time::Seconds string_to_string{0.004};

std::vector<CompBar> comp_bars(const TimeThrough& time) {
    std::vector<CompBar> bars;
    for (int number = time.passage().from; number <= time.passage().to; ++number) {
        const auto& bar = time.form.bar(number);
        bars.push_back({bar.start, bar.bar_in_section - 1, time.manner(number).feel,
                        time.slots(number), bar.kicks,
                        time.bass_and_guitar_rest(time.played(number))});
    }
    return bars;
}

}  // namespace

void strike(const guitar::VoicingPlan& plan, const guitar::Shape& shape, const CompStrum& strum,
            Part& part) {
    constexpr double usual_strings = 3;
    const auto places = shape.places();
    const double share = std::pow(usual_strings / static_cast<double>(places.size()), 0.25);
    const auto velocity = static_cast<int>(std::lround(strum.velocity * share));
    time::Seconds rolled;
    for (const auto& place : places) {
        part.guitar.push_back(
            {strum.at, strum.length, plan.fretboard.note(place), velocity, rolled});
        rolled += string_to_string;
    }
}

void write_guitar(const TimeThrough& time, Part& part) {
    const auto& voicings = time.setup.voicings;
    if (!voicings) return;
    const auto meter = time.meter();
    for (CompStrum strum : comp(comp_bars(time), meter, time.key(Matter::comping))) {
        const std::int64_t bar = time.first_played() + strum.at / meter.bar();
        const auto* const voicing = voicings->at(strum.in_form);
        if (voicing == nullptr || time.bass_and_guitar_rest(bar)) continue;
        strum.at += meter.bar() * time.first_played();
        strike(*voicings, voicing->grip.shape, strum, part);
    }
}

}  // namespace compline::band
