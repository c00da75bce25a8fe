#pragma once

#include "evening.hpp"

#include <compline/live/gear.hpp>

namespace compline::app {

/// The devices that an evening's words mean, of those that there are. Throws text::BadInput and
/// live::DeviceError.
[[nodiscard]] live::GearChoice find_gear(const AskedEvening& asked);

}  // namespace compline::app
