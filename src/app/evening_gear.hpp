#pragma once

#include "evening.hpp"

#include <compline/live/gear.hpp>

#include <string>

namespace compline::app {

/// The devices that an evening's words mean, of those that there are. Throws text::BadInput and
/// live::DeviceError.
[[nodiscard]] live::GearChoice find_gear(const AskedEvening& asked);

/// Name of the MIDI input that is meant, by API and name; empty: there is none, or not one alone.
[[nodiscard]] std::string input_name(const AsGiven& wish);

}  // namespace compline::app
