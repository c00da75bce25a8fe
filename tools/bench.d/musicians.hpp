#pragma once

#include <cstdint>

namespace compline::bench {

/// Plans and bass lines of the demo charts and of so many tunes by chance, counted as musicians
/// hear them, each beside its gate; and of each count `show` cases. The figures are the same on
/// every machine.
void print_musicians(int tunes, std::uint64_t seed, int show);

}  // namespace compline::bench
