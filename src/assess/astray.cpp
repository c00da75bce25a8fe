#include "astray.hpp"

#include <algorithm>

namespace compline::assess {

namespace {

/// How many bars further on in the music the player was.
double bars_astray(const Target& here, const Target& meant, time::Meter meter) {
    return time::Beats(meant.at - here.at).count() / time::Beats(meter.bar()).count();
}

/// By how many bars most of its changes are astray: a chord that lasts longer elsewhere is no other
/// way to be lost. Of equal ones the first.
double most_common(const std::vector<double>& bars) {
    const auto count = [&](double one) { return std::count(bars.begin(), bars.end(), one); };
    return *std::max_element(bars.begin(), bars.end(),
                             [&](double a, double b) { return count(a) < count(b); });
}

}  // namespace

std::vector<Astray> astray_stretches(const std::vector<Change>& changes, const Reading& reading,
                                     const Targets& targets, const roadmap::RoadMap& map) {
    std::vector<Astray> stretches;
    std::vector<double> bars;  // of the last stretch, while it goes on
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const auto& change = changes[i];
        if (change.verdict != Verdict::astray) {
            if (reading.landings[i]) bars.clear();
            continue;
        }
        const auto meter = map.form().bar(change.bar).meter;
        const bool goes_on = !bars.empty() && stretches.back().time_through == change.time_through;
        if (!goes_on) {
            bars.clear();
            stretches.push_back({change.time_through, change.bar, change.bar, 0, 0});
        }
        bars.push_back(bars_astray(targets.due[i], targets.due[*reading.meant[i]], meter));
        stretches.back().bars = most_common(bars);
        stretches.back().to_bar = change.bar;
        ++stretches.back().changes;
    }
    return stretches;
}

}  // namespace compline::assess
