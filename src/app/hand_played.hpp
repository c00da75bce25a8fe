#pragma once

#include "command.hpp"
#include "voicing_options.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/practice/report.hpp>

#include <optional>
#include <vector>

namespace compline::app {

/// What is asked for by who wants to see what the hand did.
struct HandOptions {
    bool shown = false;
    AsGiven voicings;  ///< the plan it is set beside; empty: the take's
    VoicingOptions usual;

    [[nodiscard]] bool asked() const { return shown || !voicings.empty(); }
};

/// As commands have them, and what they read from the settings alone.
[[nodiscard]] std::vector<Option> options_of(HandOptions& options);
[[nodiscard]] std::vector<Option> settled(HandOptions& options);

/// The hand of a report beside the plan that was asked for, else the one that was shown to the
/// player, else one as `compline plan` makes it unasked. Throws BadInput.
[[nodiscard]] practice::HandAgainstPlan hand_played(const practice::Report& report,
                                                    const HandOptions& options);

/// The plan that was shown to the player of a take; none: he played by none. Throws BadInput.
[[nodiscard]] std::optional<guitar::VoicingPlan> voicings_shown(const practice::Report& report,
                                                                const HandOptions& options);

}  // namespace compline::app
