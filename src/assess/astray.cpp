#include "astray.hpp"

#include <optional>

namespace compline::assess {

namespace {

/// How many bars further on in the music the player was.
double bars_astray(const Target& here, const Target& meant, time::Meter meter) {
    return time::Beats(meant.at - here.at).count() / time::Beats(meter.bar()).count();
}

}  // namespace

std::vector<Astray> astray_stretches(const std::vector<Change>& changes, const Reading& reading,
                                     const Targets& targets, const roadmap::RoadMap& map) {
    std::vector<Astray> stretches;
    std::optional<double> before;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const auto& change = changes[i];
        if (change.verdict != Verdict::astray) {
            if (reading.landings[i]) before.reset();
            continue;
        }
        const auto meter = map.form().bar(change.bar).meter;
        const double bars = bars_astray(targets.due[i], targets.due[*reading.meant[i]], meter);
        const bool goes_on = before && stretches.back().time_through == change.time_through;
        if (!goes_on) stretches.push_back({change.time_through, change.bar, change.bar, bars, 0});
        before = bars;
        stretches.back().to_bar = change.bar;
        ++stretches.back().changes;
    }
    return stretches;
}

}  // namespace compline::assess
