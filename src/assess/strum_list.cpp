#include "strum_list.hpp"

#include "time_keeping.hpp"

namespace compline::assess {

namespace {

/// Each strum against the beat or off-beat it is nearest to; a landing against the one that it was
/// judged by.
std::vector<Asynchrony> places_of(const Evidence& evidence, const std::vector<Change>& changes) {
    std::vector<Asynchrony> places;
    const auto& strums = evidence.strums();
    for (std::size_t s = 0; s < strums.size(); ++s) {
        places.push_back(against_grid(s, strums[s].first(), evidence.grid.map()));
    }
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (!changes[i].lateness) continue;
        auto& place = places[evidence.reading.landings[i]->strum];
        place.eighth = eighth_of(evidence.targets.due[i], *changes[i].beats_in);
        place.off = *changes[i].lateness;
    }
    return places;
}

}  // namespace

std::vector<ReadStrum> list_strums(const Evidence& evidence, const std::vector<Change>& changes,
                                   const std::vector<ReadAs>& read_as) {
    const auto places = places_of(evidence, changes);
    std::vector<ReadStrum> strums;
    for (std::size_t s = 0; s < places.size(); ++s) {
        const auto place = evidence.grid.map().place_at(time::eighth_note * places[s].eighth);
        if (place.before || place.over || place.bar == 0) continue;
        const auto meter = evidence.grid.map().form().bar(place.bar).meter;
        strums.push_back({place.time_through, place.bar, meter.beat_of_bar(place.in_bar),
                          places[s].at, places[s].off, read_as[s],
                          evidence.grid.is_off_beat(time::eighth_note * places[s].eighth)});
    }
    return strums;
}

}  // namespace compline::assess
