#include <compline/time/clock_steps.hpp>

#include <algorithm>
#include <cstddef>

namespace compline::time {

void ClockSteps::add(Seconds at, Kind kind, Seconds close) {
    const auto place = std::lower_bound(times_.begin(), times_.end(), at - close);
    const auto index = place - times_.begin();
    if (place == times_.end() || *place > at + close) {
        times_.insert(place, at);
        kinds_.insert(kinds_.begin() + index, Kind::stepped);
    }
    Kind& known = kinds_[static_cast<std::size_t>(index)];
    if (kind == Kind::stepped || known == Kind::lost) return;
    known = Kind::lost;
    ++losses_;
}

bool ClockSteps::any_near(Seconds at, Seconds distance) const {
    const auto place = std::lower_bound(times_.begin(), times_.end(), at - distance);
    return place != times_.end() && *place <= at + distance;
}

}  // namespace compline::time
