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
    [[nodiscard]] bool hears_midi() const { return listens() && !is_sound(in.text); }
};

/// As a command has them, the guitar's after the devices'.
[[nodiscard]] std::vector<Option> options_of(GearOptions& options, GuitarOptions& guitar);

/// Those of the devices alone that other commands open too.
struct DevicePlaces {
    AsGiven* out;
    AsGiven* in;
    std::optional<int>* rate;
    std::optional<int>* period;
};
[[nodiscard]] std::vector<Option> device_rows(const DevicePlaces& places);

/// Puts it where an evening finds it. Throws BadInput for a pedal that nobody could hear.
void read_gear(const GearOptions& options, AskedEvening& evening);

}  // namespace compline::app
