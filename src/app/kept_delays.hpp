#pragma once

#include <compline/settings/settings.hpp>

#include <string>

namespace compline::app {

/// The delays that a player's settings keep, for people: of the interface, of all guitars and of
/// each; how to measure them, where none are kept. Throws BadInput for a value that cannot be read,
/// with its place.
[[nodiscard]] std::string kept_delays(const settings::AllSettings& settings);

}  // namespace compline::app
