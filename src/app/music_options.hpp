#pragma once

#include "band_options.hpp"
#include "key_wish.hpp"
#include "voicing_options.hpp"

#include <compline/roadmap/asked.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// What a player asks of the music, whether it is played or written to a file.
struct MusicOptions {
    std::string chart;
    std::optional<double> tempo;
    std::string bars;
    KeyWish key;
    std::optional<int> times;
    std::optional<roadmap::AskedLadder> ladder;
    BandOptions band;
    AsGiven voicings;
    VoicingOptions hand;  ///< of the guitarist: the guitar, and what `voicings` need not say
};

/// The music as it was asked for, on its chart.
struct AskedMusic {
    WantedChart chart;
    AskedBand band;
    /// The bars that are played in one key after another; none: in the chart's.
    std::optional<chart::Passage> through_keys;
};

/// Reads all of it but the chart and the voicings. `bars`: those that are meant, as typed; `times`:
/// how often where nobody says it, none: until stopped. Throws BadInput.
[[nodiscard]] AskedMusic read_asked(const MusicOptions& options, WantedChart chart,
                                    const std::string& bars, std::optional<int> times);

}  // namespace compline::app
