#pragma once

#include <cstdint>

namespace compline::bench {

/// What is offered for whole takes that were played to something else, and for those that were not;
/// and `show` takes of each kind for which something else is. The same on every machine, but for
/// the seconds that it takes to find an offer for ten minutes of music.
void print_offers(int takes, std::uint64_t seed, int show);

}  // namespace compline::bench
