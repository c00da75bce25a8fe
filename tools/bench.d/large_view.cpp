#include "benches.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/report/large_view.hpp>

#include <fmt/format.h>

namespace compline::bench {

/// Each beat of one time through, with the grip, in a window of 200 by 50.
std::vector<Row> large_view(Pace pace) {
    const auto form = aaba();
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), std::nullopt));
    const auto plan =
        guitar::plan_voicings(form, form.whole(), map.tempo(), guitar::Fretboard::standard(), {})
            .front();
    const report::Playing playing{map, true, &plan, {}, {200, 49}, report::View::large};
    const auto rows = report::chart_rows(form, form.all(), 200);
    const std::deque<std::string> messages{"1st time through: 30 changes, 28 in time"};
    const int frames = 4 * form.whole().bars();
    const auto took = measure(pace, [&] {
        for (int beat = 0; beat < frames; ++beat) {
            keep(report::large_view(rows, playing, time::quarter_note * beat, messages).size());
        }
    });
    return {{"large view, 200 by 50, each beat of 32 bars", took,
             fmt::format("{:.3f} ms a frame; wanted: 0.3", took.fastest().count() / frames * 1e3)}};
}

}  // namespace compline::bench
