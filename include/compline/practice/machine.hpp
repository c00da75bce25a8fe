#pragma once

#include <optional>
#include <string>

namespace compline::practice {

/// The machine a take was recorded on, and how it bore up.
struct Machine {
    /// Counts go no further: a million says what ten would.
    static constexpr int most = 1'000'000;

    std::string output;  ///< API and name of what the band was played through
    std::string input;   ///< of what the guitar was heard from
    int rate_hz = 0;
    int period_frames = 0;
    double latency_ms = 0;  ///< from the audio callback to the ear, as the system says
    double worst_callback_ms = 0;
    int xruns = 0;             ///< times that sound was lost
    int dropped_events = 0;    ///< MIDI messages that found no room
    int late_strokes = 0;      ///< strokes of the band that came too late to be played
    int unreadable_bytes = 0;  ///< that came from the input and made no MIDI message
    /// The measured round trip that was taken in place of the latency; none: that was taken.
    std::optional<double> round_trip_ms = {};
    bool operator==(const Machine&) const = default;
};

}  // namespace compline::practice
