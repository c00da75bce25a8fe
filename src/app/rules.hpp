#pragma once

#include "command.hpp"

#include <compline/harmony/palette.hpp>
#include <compline/practice/scoring.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// Rules by which a player is judged, as far as somebody says them.
struct Rules {
    practice::ScoreRequest request;
    AsGiven rhythm;  ///< it needs the chart's meter to be read
};

/// The options that say them.
struct RuleOptions {
    Rules asked;
    Rules usual;  ///< by the settings: they count for less than what chart and take say
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

/// Whose say comes after that of the options.
enum class Unsaid {
    by_settings,  ///< the chart's, then the settings'
    by_take       ///< the take's: it was made by all of these
};

/// What was asked for, for this chart. Throws BadInput.
[[nodiscard]] practice::ScoreRequest read_rules(const RuleOptions& options, const chart::Form& form,
                                                Unsaid unsaid);

}  // namespace compline::app
