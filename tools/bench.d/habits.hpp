#pragma once

#include <cstdint>

namespace compline::bench {

/// Plants each kind of habit in the simulated guitarist at three strengths and prints how often the
/// judge names it first, how often he names one where there is none, and how well he tells who was
/// elsewhere in the form; and `show` takes of each kind of which he says something else. The same
/// on every machine.
void print_habits(int takes, std::uint64_t seed, int show);

}  // namespace compline::bench
