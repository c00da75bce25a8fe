#pragma once

#include <cstdint>

namespace compline::bench {

/// Plays random choruses with known mistakes and liberties, has them judged, and prints how much of
/// it was recognised. Unlike the other figures these are the same on every machine.
void print_confusion(int choruses, std::uint64_t seed);

}  // namespace compline::bench
