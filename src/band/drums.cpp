#include <compline/band/drums.hpp>

#include <cassert>

namespace compline::band {

namespace {

using time::quarter_note;
using time::Ticks;

constexpr Ticks eighth_note{quarter_note.count() / 2};
constexpr Ticks beat(int number) { return quarter_note * (number - 1); }
constexpr Ticks after_beat(int number) { return beat(number) + eighth_note; }

constexpr int feather = 34;
constexpr int foot = 72;
constexpr int click = 90;

std::vector<Stroke> bar_in_four() {
    return {{beat(1), Drum::ride, 80},      {beat(1), Drum::kick, feather},
            {beat(2), Drum::ride, 90},      {beat(2), Drum::hihat_foot, foot},
            {beat(2), Drum::kick, feather}, {after_beat(2), Drum::ride, 70},
            {beat(3), Drum::ride, 80},      {beat(3), Drum::kick, feather},
            {beat(4), Drum::ride, 90},      {beat(4), Drum::hihat_foot, foot},
            {beat(4), Drum::kick, feather}, {after_beat(4), Drum::ride, 70}};
}

std::vector<Stroke> bar_in_three() {
    return {{beat(1), Drum::ride, 86},        {beat(1), Drum::kick, feather + 4},
            {beat(2), Drum::ride, 82},        {beat(2), Drum::hihat_foot, foot},
            {after_beat(2), Drum::ride, 70},  {beat(3), Drum::ride, 82},
            {beat(3), Drum::hihat_foot, foot}};
}

}  // namespace

std::vector<Stroke> keep_time(time::Meter meter, int bars) {
    assert(meter.beats() == 3 || meter.beats() == 4);
    const auto pattern = meter.beats() == 3 ? bar_in_three() : bar_in_four();
    std::vector<Stroke> strokes;
    strokes.reserve(pattern.size() * static_cast<std::size_t>(bars));
    for (int bar = 0; bar < bars; ++bar) {
        for (Stroke stroke : pattern) {
            stroke.at += meter.bar() * bar;
            strokes.push_back(stroke);
        }
    }
    return strokes;
}

std::vector<Stroke> count_in(time::Meter meter, int bars) {
    assert(bars >= 0 && bars <= 2);
    std::vector<Stroke> clicks;
    for (int bar = -bars; bar < 0; ++bar) {
        const int apart = bar == -2 ? 2 : 1;  // the first of two bars in half time
        // A waltz has no second half-time click: 3 would sound like another 1.
        const int last = apart == 2 && meter.beats() == 3 ? 1 : meter.beats();
        for (int number = 1; number <= last; number += apart) {
            clicks.push_back(
                {meter.bar() * bar + beat(number), Drum::stick, number == 1 ? click + 10 : click});
        }
    }
    return clicks;
}

}  // namespace compline::band
