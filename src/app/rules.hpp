#pragma once

#include "command.hpp"
#include "scoring.hpp"

#include <string>
#include <vector>

namespace compline::app {

/// The options that say by which rules a player is judged, as typed.
struct RuleOptions {
    std::string tolerance;
    std::string rhythm;
    std::string strictness;
    std::string against;
    std::string pickup;
};

/// As a command has them. otherwise: what comes before the usual default, such as "the take's,
/// else ".
[[nodiscard]] std::vector<Option> options_of(RuleOptions& options, const std::string& otherwise);

/// Puts them into a request. Throws BadInput.
void read_rules(const RuleOptions& options, const chart::Form& form, ScoreRequest& request);

/// Words of --midi-pickup, put into what the listener goes by. Throws BadInput.
void read_pickup_option(const std::string& words, listen::Settings& settings);

}  // namespace compline::app
