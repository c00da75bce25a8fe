#pragma once

#include <compline/guitar/grip.hpp>
#include <compline/practice/report.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::practice {

/// What the hand held where a change went wrong, and what it should have held. Fingers are those of
/// a hand that can hold it; none are named where no hand can.
struct FaultGrips {
    std::size_t change = 0;  ///< an index into Assessment::changes
    guitar::Grip held;
    std::vector<int> foreign;  ///< strings on which a tone rang that is not the chord's
    guitar::Grip due;
};

/// Of a change, where the strings are known, something was held, and another grip was due; by sound
/// never.
///
///   - Wrong tones: what rang when it landed, and the same with each foreign tone put on its
///     nearest right fret.
///   - Tones missing: what rang, and a grip that has them.
///   - Late: what was struck last before, and what came at last.
///   - Missed: what was struck last before the chord was over its first half, and a grip for it.
///
/// A grip for a chord is the one with which it was right most often in this take; else a shell
/// voicing near by (guitar::shell).
[[nodiscard]] std::optional<FaultGrips> grips_of_fault(const Report& report, std::size_t change);

/// For the places of the form that cost most, the costliest first, one of each: so many at most.
[[nodiscard]] std::vector<FaultGrips> worst_grips(const Report& report, std::size_t most);

}  // namespace compline::practice
