#include "time_through.hpp"

#include "bar_grid.hpp"
#include "keyed_chance.hpp"

namespace compline::band {

bool TimeThrough::is_last() const {
    const auto times = map.times_through();
    return times && number == *times;
}

Manner TimeThrough::manner(int bar) const {
    const auto here = played(bar);
    auto asked = here.manner;
    if (is_cut_time(here.meter()) && !asked.bass) asked.bass = chart::Bass::two_feel;
    // In double-time the players do what they do at twice the tempo: over a slow tune they take up
    // sticks and walk. In half-time they go on with what they have: nobody changes for brushes.
    const auto felt = is_double_time(here.meter()) ? time::Bpm(tempo().count() * 2) : tempo();
    return manner_of(asked, felt);
}

bool TimeThrough::ends_section(int bar) const {
    return bar == passage().to || form().bar(bar + 1).bar_in_section == 1;
}

bool TimeThrough::stops_after(int bar) const {
    return bar == passage().to && is_last() && !map.way().held_ending;
}

std::uint64_t TimeThrough::key(Matter matter, int bar) const {
    // From 0, as ever: another count would be other parts for the same seed.
    const auto before = static_cast<std::uint64_t>(number - 1);
    const auto place = before << 32U | static_cast<std::uint64_t>(bar);
    return mixed(mixed(players.seed ^ mixed(static_cast<std::uint64_t>(matter))) ^ place);
}

}  // namespace compline::band
