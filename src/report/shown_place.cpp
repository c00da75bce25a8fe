#include "shown_place.hpp"

namespace compline::report {

roadmap::PlayedPlace shown_place(const ChartRows& rows, const Playing& playing,
                                 time::Ticks position) {
    const auto& map = playing.map;
    auto place = map.place_at(position);
    if (place.bar == 0) {
        const auto wait = map.bar(place.number);
        place = map.place_at(wait.end());
        place.before = place.bar != 0;
        // Nothing came of it: the bar before it was the last.
        if (place.bar == 0) place.bar = map.bar(wait.number - 1).in_form();
    } else if (place.over && playing.decided.paused) {
        const int first = rows.rows[rows.row_of(place.bar)].bars.front().number;
        place.bar = playing.decided.goes_on_with.value_or(first);
    }
    return place;
}

}  // namespace compline::report
