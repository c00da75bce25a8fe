#include <compline/roadmap/asked.hpp>

namespace compline::roadmap {

Asked Asked::of(chart::Passage passage, std::optional<int> times_through) {
    Asked asked;
    asked.way = chart::Way::of(passage, times_through);
    return asked;
}

int usual_count_in(time::Bpm tempo) {
    constexpr double slow_below = 80;
    return tempo.count() < slow_below ? 1 : 2;
}

}  // namespace compline::roadmap
