#pragma once

#include "measure.d/habits.hpp"

#include <compline/simulate/chance.hpp>

namespace compline::measure {

/// Somebody who errs by chance and, so strongly, by this habit; on a demo chart or a tune by
/// chance.
[[nodiscard]] Pupil pupil_with(const std::vector<chart::Form>& forms, const PlantedHabit& planted,
                               double strength, int times, simulate::Chance& chance,
                               std::uint64_t seed);

/// Somebody who errs by chance and takes liberties; of `n` the manner of comping.
[[nodiscard]] Pupil pupil_without(const std::vector<chart::Form>& forms, int n, int times,
                                  simulate::Chance& chance, std::uint64_t seed);

}  // namespace compline::measure
