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
        const auto bar = time.played(number);
        bars.push_back({bar.written->start, bar.written->bar_in_section - 1,
                        time.manner(number).feel, bar.slots(), bar.written->kicks,
                        bar.left_out.guitar, bar.meter()});
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
    const auto& voicings = time.players.voicings;
    if (!voicings) return;
    for (CompStrum strum : comp(comp_bars(time), time.meter(), time.key(Matter::comping))) {
        strum.at += time.start();
        const auto* const voicing = voicings->at(strum.in_form);
        if (voicing == nullptr || time.map.bar_at(strum.at).left_out.guitar) continue;
        strike(*voicings, voicing->grip.shape, strum, part);
    }
}

}  // namespace compline::band
