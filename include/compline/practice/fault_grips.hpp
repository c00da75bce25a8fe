#pragma once

#include <compline/guitar/grip.hpp>
#include <compline/practice/report.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::guitar {
struct VoicingPlan;
}

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
/// never. Held was
///
///   - of wrong tones and of missing ones: what rang when it landed;
///   - of a late change: what was struck last before;
///   - of a missed one: what was struck last before the chord was over its first half.
///
/// Due was the grip of the plan that was `shown`. Where none was: the same with each foreign tone
/// on its nearest right fret; of a late change what came at last; else the grip with which the
/// chord was right most often in this take, or a shell voicing near by (guitar::shell).
[[nodiscard]] std::optional<FaultGrips> grips_of_fault(const Report& report,
                                                       std::size_t change_index,
                                                       const guitar::VoicingPlan* shown = nullptr);

/// For the places of the form that cost most, the costliest first, one of each: so many at most.
[[nodiscard]] std::vector<FaultGrips> worst_grips(const Report& report, std::size_t most,
                                                  const guitar::VoicingPlan* shown = nullptr);

}  // namespace compline::practice
