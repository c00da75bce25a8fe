#include "count_in.hpp"

#include <compline/band/drums.hpp>

namespace compline::report {

namespace {

using time::Ticks;

/// What a drummer says on a beat of the count-in: in the first of two bars only where he clicks.
std::string counted(int bars_to_go, int beat, time::Meter meter) {
    if (bars_to_go == 1) return std::to_string(beat + 1);
    const Ticks at = meter.beat() * beat - meter.bar() * bars_to_go;
    int clicks = 0;
    for (const auto& click : band::count_in(meter, bars_to_go)) {
        ++clicks;
        if (click.at == at) return std::to_string(clicks);
    }
    return "-";
}

}  // namespace

CountIn count_in(const roadmap::RoadMap& map, const roadmap::PlayedPlace& place, Ticks position) {
    const auto first_bar = map.bar(place.number);
    const auto meter = first_bar.meter();
    const int bars = place.number == 1 ? map.count_in_bars() : 1;
    const Ticks first = first_bar.start - meter.bar() * bars;
    CountIn count{meter.beats(), {}};
    for (int n = 0; first + meter.beat() * n <= position; ++n) {
        count.words.push_back(counted(bars - n / count.beats, n % count.beats, meter));
    }
    return count;
}

}  // namespace compline::report
