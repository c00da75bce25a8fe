#include "bar_grid.hpp"

#include <compline/band/drums.hpp>

#include <cassert>

namespace compline::band {

namespace {

using time::Meter;
using time::Ticks;

constexpr int click = 90;
constexpr int first_click = 100;
constexpr int between = 66;  // the eighths of 6/8

/// Whatever the band feels, players count what is written.
Meter counted_meter(const Meter& felt) {
    const auto written = felt.written();
    return Meter::find(written.above, written.below).value_or(felt);
}

/// In its first bar of two, in half time; the beats of 2/2 and 6/8 are slow enough.
std::vector<Stroke> slow_bar(const Meter& meter) {
    std::vector<Stroke> clicks;
    const bool every_beat = meter.is_compound() || is_cut_time(meter);
    for (int beat = 0; beat < meter.beats(); ++beat) {
        if (!every_beat && !meter.is_strong(beat)) continue;
        clicks.push_back({meter.beat() * beat, Drum::stick, beat == 0 ? first_click : click});
    }
    return clicks;
}

std::vector<Stroke> last_bar(const Meter& meter) {
    const BarGrid grid(meter);
    const Ticks step = grid.compound ? grid.short_note : grid.pulse;
    std::vector<Stroke> clicks;
    for (Ticks at; at < grid.bar; at += step) {
        const int velocity = at == Ticks(0) ? first_click : grid.is_on(at) ? click : between;
        clicks.push_back({at, Drum::stick, velocity});
    }
    return clicks;
}

}  // namespace

std::vector<Stroke> count_in(time::Meter meter, int bars) {
    assert(bars >= 0 && bars <= 2);
    const auto counted = counted_meter(meter);
    std::vector<Stroke> clicks;
    for (int bar = -bars; bar < 0; ++bar) {
        for (Stroke stroke : bar == -2 ? slow_bar(counted) : last_bar(counted)) {
            stroke.at += counted.bar() * bar;
            clicks.push_back(stroke);
        }
    }
    return clicks;
}

}  // namespace compline::band
