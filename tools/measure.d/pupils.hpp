#pragma once

#include <compline/roadmap/road_map.hpp>
#include <compline/simulate/played.hpp>

#include <cstdint>
#include <vector>

namespace compline::measure {

/// What one pupil plays: a tune, a manner, a tempo, and what goes wrong.
struct Pupil {
    roadmap::RoadMap map;
    simulate::Habits habits;
    simulate::ChannelLayout channels = simulate::ChannelLayout::high_string_first;
    std::uint64_t seed = 1;
};

/// Pupil n (from 0): the manners of comping in turn, on 2 and 4 more often than the others; at 70
/// to 280 quarter notes a minute; the demo charts (`forms`) and tunes by chance; every channel
/// layout. A fifth make no mistake and take no liberty, a tenth wait for the grip, a tenth have a
/// slow hand.
[[nodiscard]] Pupil pupil(const std::vector<chart::Form>& forms, std::uint64_t seed, int n);

/// What comes of so many pupils: each plays, is judged, and is added to the sum.
template <typename Sum, typename Judge>
Sum over_pupils(const std::vector<chart::Form>& forms, int takes, std::uint64_t seed, Judge judge) {
    Sum sum;
    for (int n = 0; n < takes; ++n) {
        const auto one = pupil(forms, seed, n);
        const auto played = simulate::play(one.map, one.habits, one.seed);
        sum.add(one, played, judge(one, played));
    }
    return sum;
}

}  // namespace compline::measure
