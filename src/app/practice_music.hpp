#pragma once

#include "evening.hpp"
#include "music_options.hpp"

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// The music of an evening, as a player asks for it.
struct PracticeMusic : MusicOptions {
    std::optional<int> around;  ///< this bar
    bool weakest = false;
    std::string changes;  ///< in place of a chart
};

/// As a command has them, without those of the guitar.
[[nodiscard]] std::vector<Option> options_of(PracticeMusic& music);

/// An evening of it; devices and rules are to be added. Throws BadInput, chart::ChartError.
[[nodiscard]] AskedEvening read_music(const PracticeMusic& options);

}  // namespace compline::app
