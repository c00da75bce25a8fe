#pragma once

#include "delay_options.hpp"
#include "evening.hpp"
#include "guitar_options.hpp"

#include <optional>
#include <vector>

namespace compline::app {

/// What an evening is played on and heard through, as a player asks for it.
struct GearOptions {
    AsGiven out;
    AsGiven in;
    AsGiven pedal;
    AsGiven pedal_in;
    std::optional<int> rate;
    std::optional<int> period;
    DelayOptions delays;

    [[nodiscard]] bool listens() const { return in.text != no_input; }
};

/// As a command has them, the guitar's after the devices'.
[[nodiscard]] std::vector<Option> options_of(GearOptions& options, GuitarOptions& guitar);

/// Puts it where an evening finds it. Throws BadInput for a pedal that nobody could hear.
void read_gear(const GearOptions& options, AskedEvening& evening);

}  // namespace compline::app
