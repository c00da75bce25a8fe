#pragma once

#include <compline/time/units.hpp>

#include <span>

namespace compline::listen {

/// How well estimated onsets agree with reference onsets: each matched to at most one other, as
/// many as can be, no further apart than the window.
struct OnsetScore {
    double f_measure = 0;
    double precision = 0;
    double recall = 0;
};

/// Definition as in mir_eval (Raffel et al., ISMIR 2014): largest matching, window inclusive,
/// F = 2PR / (P + R), all 0 when either list is empty. Both lists in order of time.
[[nodiscard]] OnsetScore match_onsets(std::span<const time::Seconds> reference,
                                      std::span<const time::Seconds> estimated,
                                      time::Seconds window = time::Seconds(0.050));

}  // namespace compline::listen
