#pragma once

#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace compline::practice {

/// What sound was played on: the round trip that was measured there holds there alone.
struct SoundPath {
    int rate_hz = 0;
    int period_frames = 0;
    std::string output;  ///< API and name: "JACK:system"
    bool operator==(const SoundPath&) const = default;
};
/// "48000/256 by JACK:system".
[[nodiscard]] std::string in_words(const SoundPath& path);

/// The round trip of an audio interface, as it was measured and is kept: what is written into
/// output frame n is heard in input frame n + the round trip. It takes the place of the latency
/// that the system tells of its output: a player who is exactly with what he hears has his note
/// there, plus what the MIDI pickup needs (listen::Delay).
///
/// In words, for options and settings:
///
///     11.354                               milliseconds, 0 to 1000; wherever the band is played
///     11.354 at 48000/256 by JACK:system   measured at that rate (Hz) and period (frames), through
///                                          that output: the rest of the text, blanks and all
struct KnownRoundTrip {
    time::Seconds trip{0};
    std::optional<SoundPath> path;  ///< that it was measured on; none: not said, it always holds
    bool operator==(const KnownRoundTrip&) const = default;

    [[nodiscard]] bool holds_on(const SoundPath& other) const { return !path || *path == other; }
};

inline constexpr double longest_round_trip_ms = 1000;

/// Throws text::BadInput.
[[nodiscard]] KnownRoundTrip read_round_trip(std::string_view words);
/// The same back again, to a microsecond.
[[nodiscard]] std::string in_words(const KnownRoundTrip& known);

}  // namespace compline::practice
