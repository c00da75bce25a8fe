#pragma once

#include "band_options.hpp"
#include "evening.hpp"
#include "key_wish.hpp"
#include "voicing_options.hpp"

#include <compline/roadmap/asked.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// The music of an evening, as a player asks for it.
struct PracticeMusic {
    std::string chart;
    std::optional<double> tempo;
    std::string bars;
    std::optional<int> around;
    bool weakest = false;
    std::string changes;
    KeyWish key;
    std::optional<int> times;
    std::optional<roadmap::AskedLadder> ladder;
    BandOptions band;
    AsGiven voicings;
    VoicingOptions hand;  ///< the guitar, and what `voicings` need not say
};

/// As a command has them, without those of the guitar.
[[nodiscard]] std::vector<Option> options_of(PracticeMusic& music);

/// An evening of it; devices and rules are to be added. Throws BadInput, chart::ChartError.
[[nodiscard]] AskedEvening read_music(const PracticeMusic& options);

}  // namespace compline::app
