#pragma once

#include "option.hpp"

#include <compline/practice/report.hpp>
#include <compline/practice/take.hpp>

#include <string>
#include <vector>

namespace compline::app {

// What somebody asked for is asked for again in the commands that a report suggests.

/// The options, each of which writes down what was typed, except those of these names.
[[nodiscard]] std::vector<Option> remembering(std::vector<Option> options,
                                              const std::vector<std::string>& except,
                                              std::vector<practice::KeptOption>* kept);

/// Of a take that is scored: how it was judged, and what it says of the player's gear and wishes.
[[nodiscard]] std::vector<practice::KeptOption> kept_of(const assess::Settings& settings,
                                                        const practice::TakeInfo& info);

}  // namespace compline::app
