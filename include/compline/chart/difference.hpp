#pragma once

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

namespace compline::chart {

/// What a bar is in one chart and in another.
struct BarDifference {
    int bar = 1;
    std::string one;    ///< its chords in plain letters, "Dm7 G7"; empty: there is no such bar
    std::string other;  ///< the same; equal where meter, kicks or feel differ
};

/// The bars in which two forms are not the same to a judge: other chords, or chords elsewhere,
/// another meter, other kicks or another feel. In order; names of sections and ways of writing the
/// same bar do not count.
[[nodiscard]] std::vector<BarDifference> differences(const Form& one, const Form& other);

}  // namespace compline::chart
