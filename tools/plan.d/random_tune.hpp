#pragma once

#include <compline/chart/form.hpp>

#include <cstdint>

namespace compline::plan_rivals {

/// A tune by chance: chords of all usual kinds, most of them a fourth above the one before, and
/// `chords_a_bar` in each bar (1 or 2), or now one and now two (0). The same seed gives the same
/// tune.
[[nodiscard]] chart::Form random_tune(std::uint64_t seed, int bars, int chords_a_bar = 0);

}  // namespace compline::plan_rivals
