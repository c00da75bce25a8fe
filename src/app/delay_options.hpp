#pragma once

#include "option.hpp"

#include <compline/guitar/fretboard.hpp>
#include <compline/practice/known_round_trip.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <vector>

namespace compline::app {

/// How long notes take to get here and the band to be heard, as far as it was measured.
struct DelayOptions {
    double offset_ms = 0;
    bool offset_typed = false;  ///< and not settled
    AsGiven string_offsets;
    std::optional<practice::KnownRoundTrip> round_trip;

    /// What strings of a guitar take besides, from string 1 on. Throws BadInput for one that it has
    /// not got.
    [[nodiscard]] std::vector<time::Seconds> strings_of(const guitar::Fretboard& guitar) const;
};

/// As a command has them that is played live.
[[nodiscard]] std::vector<Option> options_of(DelayOptions& options);

/// The same, read from the settings alone.
[[nodiscard]] std::vector<Option> settled(DelayOptions& options);

}  // namespace compline::app
