#pragma once

#include <compline/band/band.hpp>
#include <compline/roadmap/road_map.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::tests {

/// What is asked of a band, and what its players bring.
struct Booking {
    roadmap::Asked asked;
    band::Players players;

    /// A passage some times through, or until stopped.
    [[nodiscard]] static Booking of(chart::Passage passage, std::optional<int> times_through,
                                    int count_in_bars = 2);

    /// At the form's tempo where no other is asked for. Melody and guitar are on where the players
    /// bring them.
    [[nodiscard]] roadmap::RoadMap map(const chart::Form& form,
                                       std::vector<roadmap::Decision> decided = {}) const;
    [[nodiscard]] band::Part play(const chart::Form& form) const;
};

/// Bars of a road map that ends, in order of playing, from 1, in which nobody plays.
[[nodiscard]] std::vector<std::int64_t> silent_bars(const roadmap::RoadMap& map);

/// A bar over and over, at a tempo and a swing: for what is only put in time.
[[nodiscard]] roadmap::RoadMap time_alone(time::Bpm tempo, double swing_ratio);

}  // namespace compline::tests
