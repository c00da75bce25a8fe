#include "bass_rhythm.hpp"

#include "bass_bar_rhythm.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Feel;

/// What a place becomes right before a chord that starts, or a kick ahead of it.
Role before_a_start(const BassPlace& place) {
    switch (place.role) {
        case Role::weak:
            return Role::approach;
        case Role::strong:
        case Role::downbeat:
            return Role::strong_approach;
        case Role::fifth:
            return place.on_beat ? Role::fifth : Role::lead;
        default:
            return place.role;
    }
}

/// What it becomes elsewhere: before a rest nothing passes, and where nothing comes nothing leads.
Role elsewhere(const BassPlace& place, bool rest_follows) {
    if (place.role == Role::lead) return Role::root_or_fifth;
    if (place.role == Role::half) return Role::fifth;
    const bool may_pass = place.role == Role::strong || place.role == Role::weak;
    return may_pass && rest_follows ? Role::downbeat : place.role;
}

}  // namespace

bool walks(const BassBar& bar) { return bar.bass == Bass::walking && bar.feel != Feel::bossa; }

std::vector<BassPlace> places_of(const std::vector<BassBar>& bars,
                                 const std::vector<ChordToPlay>& changes,
                                 const std::vector<KeyedChance>& chances, bool ends) {
    const auto lines = lines_of(bars);
    std::vector<BassPlace> places;
    places.reserve(bars.size() * 4);
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const auto bar = places_in_bar(bars[i], i, changes, lines[i], chances[i]);
        places.insert(places.end(), bar.begin(), bar.end());
    }
    if (ends && !places.empty()) {
        places.back().role = Role::home;
        places.back().starts = false;  // and nothing leads to a chord that it is not
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
        auto& place = places[i];
        const bool short_before = i > 0 && !places[i - 1].on_beat;
        // What leads by an eighth moves; other short notes may well be the same again.
        const bool short_one = !place.on_beat && place.role != Role::weak;
        place.again = place.is_given() || short_one || short_before;
        if (place.is_given()) continue;
        const bool rest_follows = i + 1 == places.size() || place.until != places[i + 1].at;
        const bool leads =
            !rest_follows && (places[i + 1].starts || places[i + 1].role == Role::anticipation);
        place.role = leads ? before_a_start(place) : elsewhere(place, rest_follows);
    }
    return places;
}

}  // namespace compline::band
