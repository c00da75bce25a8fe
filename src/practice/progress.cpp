#include <compline/band/band.hpp>
#include <compline/practice/progress.hpp>

#include <algorithm>

namespace compline::practice {

using time::Seconds;

int times_begun(const roadmap::RoadMap& map, Seconds at) {
    const auto place = map.place_at(at);
    return place.before ? 0 : place.time_through;
}

int times_over(const roadmap::RoadMap& map, Seconds at) {
    const auto place = map.place_at(at - afterwards);
    const bool waits = place.bar == 0;  // behind a time through
    return place.before ? 0 : place.time_through - (place.over || waits ? 0 : 1);
}

bool is_finished(const roadmap::RoadMap& map, Seconds at) {
    if (map.goes_on()) return false;
    const auto last = map.bar(map.bars().value());
    const Seconds rings = std::max(last.lasts() * band::held_bars, crash_rings);
    const Seconds held = map.way().held_ending ? rings : Seconds(0);
    return map.place_at(at - afterwards - held).over;
}

}  // namespace compline::practice
