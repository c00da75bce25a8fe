#pragma once

#include <cstdint>

namespace compline::bench {

/// Has many takes of the simulated guitarist judged and prints how often the judge was right, by
/// comping, tempo, sustain and channels; and `show` changes on which they disagree. Unlike the
/// other figures these are the same on every machine.
void print_confusion(int takes, std::uint64_t seed, int show);

/// The same takes heard by their sound, so that time alone is judged.
void print_by_sound(int takes, std::uint64_t seed, int show);

}  // namespace compline::bench
