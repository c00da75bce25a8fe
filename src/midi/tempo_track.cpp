#include "event_order.hpp"
#include "smf_rules.hpp"

#include <compline/midi/smf.hpp>

#include <algorithm>
#include <stdexcept>

namespace compline::midi {

namespace {

/// SMPTE's 29 is 30 drop-frame: 30,000 frames in 1,001 seconds.
double seconds_a_frame(int frames_per_second) {
    return frames_per_second == 29 ? 1001.0 / 30000.0 : 1.0 / frames_per_second;
}

double seconds_a_tick(const File& file, int microseconds) {
    if (file.frames_per_second != 0) return seconds_a_frame(file.frames_per_second) / file.division;
    return microseconds / 1e6 / file.division;
}

/// 0 for every other event.
int tempo_of(const TrackEvent& event) {
    const auto* meta = std::get_if<MetaEvent>(&event.event);
    if (meta == nullptr || meta->type != meta::tempo) return 0;
    const int microseconds = microseconds_a_quarter(*meta);
    if (microseconds == 0) throw std::invalid_argument("a tempo event that holds no tempo");
    return microseconds;
}

}  // namespace

TempoTrack::TempoTrack(const File& file) {
    if (!division_is_valid(file.division, file.frames_per_second)) {
        throw std::invalid_argument("a division outside its range");
    }
    steps_.push_back({0, 0.0, seconds_a_tick(file, default_microseconds_a_quarter)});
    for (const TrackEvent* event : in_order(file)) {
        const int microseconds = tempo_of(*event);
        if (microseconds == 0) continue;
        const double at = time_of(event->tick).count();
        if (steps_.back().tick == event->tick) steps_.pop_back();
        steps_.push_back({event->tick, at, seconds_a_tick(file, microseconds)});
    }
}

time::Seconds TempoTrack::time_of(std::int64_t tick) const {
    const auto after =
        std::upper_bound(steps_.begin() + 1, steps_.end(), tick,
                         [](std::int64_t t, const TempoStep& s) { return t < s.tick; });
    const TempoStep& step = *(after - 1);
    return time::Seconds(step.at + static_cast<double>(tick - step.tick) * step.seconds_per_tick);
}

}  // namespace compline::midi
