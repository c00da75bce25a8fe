#pragma once

#include "grid.hpp"

#include <compline/time/units.hpp>

#include <array>
#include <cstddef>
#include <optional>

namespace compline::assess {

// What a take tells of its player: on which beats and off-beats changes come in, how often chords
// are left out, where the off-beats and the player's own time lie. A take is read twice, the second
// time with what the first has shown.

/// Grid points at which a change comes in, in eighths after its own time.
inline constexpr int first_entry = -2;
inline constexpr int last_entry = 7;
inline constexpr std::size_t entry_count = last_entry - first_entry + 1;

struct Player {
    /// How likely a change comes in there; the rest comes anywhere. Before anything is known of the
    /// player: from a prototype that read simulated takes, as is how often chords are left out.
    std::array<double, entry_count> entries{0.01, 0.20, 0.50, 0.04, 0.08,
                                            0.04, 0.05, 0.02, 0.02, 0.02};
    double leaves_out = 0.08;
    /// How far after the feel's off-beat this player's own lies; none: not known.
    std::optional<time::Seconds> off_beat;
    /// Where strums lie beside the beat.
    time::Seconds place{0};

    [[nodiscard]] double entry(int eighths) const {
        return entries[static_cast<std::size_t>(eighths - first_entry)];
    }
};

}  // namespace compline::assess
