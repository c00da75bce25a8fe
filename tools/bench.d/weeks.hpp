#pragma once

#include <cstdint>

namespace compline::bench {

/// How often the history says that somebody gets better who does, and who does not: by evenings and
/// by how much one evening differs from another. The same on every machine.
void print_weeks(int players, std::uint64_t seed);

}  // namespace compline::bench
