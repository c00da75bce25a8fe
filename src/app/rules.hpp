#pragma once

#include "command.hpp"

#include <compline/harmony/palette.hpp>
#include <compline/practice/scoring.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// The options that say by which rules a player is judged.
struct RuleOptions {
    practice::ScoreRequest rules;
    std::string rhythm;  ///< as typed: it needs the chart's meter to be read
};

/// As a command has them. otherwise: what comes before the usual default, such as "the take's,
/// else ".
[[nodiscard]] std::vector<Option> options_of(RuleOptions& options, const std::string& otherwise);

/// For an option --strictness.
template <typename Place>
[[nodiscard]] ValueReader strictness_reader(Place* place) {
    using harmony::Strictness;
    return one_by_name({Strictness::written, Strictness::working, Strictness::substitutions},
                       place);
}

/// What was asked for, for this chart. Throws BadInput.
[[nodiscard]] practice::ScoreRequest read_rules(const RuleOptions& options,
                                                const chart::Form& form);

}  // namespace compline::app
