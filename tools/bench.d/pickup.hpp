#pragma once

#include <cstdint>

namespace compline::bench {

/// Plays choruses through pickups that are worse and worse, and prints how much of what was played
/// the listener makes of it; then what each cleaning rule drops and keeps by mistake, over its
/// threshold. The figures are the same on every machine. `slips`: so many notes missed or
/// invented are shown with the messages that came.
void print_pickup(int takes, std::uint64_t seed, int slips);

}  // namespace compline::bench
