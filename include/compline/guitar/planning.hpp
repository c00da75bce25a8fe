#pragma once

#include <compline/guitar/voicing_plan.hpp>
#include <compline/text/bad_input.hpp>

#include <cstdint>
#include <functional>
#include <string>

namespace compline::guitar {

// What planning may cost. A tune of thousands of bars on all strings has more grips than a machine
// holds. So planning counts what it keeps and what it compares, never seconds: the same request has
// the same answer everywhere.

/// Called now and then with how far planning has come: `done` of `all`, a share that never falls.
/// What usual plans take is all; where it takes longer, `done` stays there.
using PlanningProgress = std::function<void(std::int64_t done, std::int64_t all)>;

/// Bounds of one plan and the others beside it, and who hears how far it is.
struct PlanningBounds {
    /// Grips that are kept at once, each 62 bytes, and its costs in other places: 650 MB.
    std::int64_t grips = 10'500'000;
    /// Times that the best way to a grip is looked for: 15 s of a small machine.
    std::int64_t searches = 500'000'000;
    PlanningProgress progress = {};  ///< none: nobody asks
};

/// More than the bounds allow: says what there is, and what to ask less of.
class TooMuchToPlan : public text::BadInput {
  public:
    using BadInput::BadInput;
};

/// What to ask less of: "fewer bars, fewer strings, no thumb".
[[nodiscard]] std::string less_to_plan(const VoicingWishes& wishes, int count);

/// plan_voicings() that tells how far it is, and with other bounds. Throws TooMuchToPlan too.
[[nodiscard]] std::vector<VoicingPlan> plan_voicings(const chart::Form& form,
                                                     chart::Passage passage, time::Bpm tempo,
                                                     const Fretboard& fretboard,
                                                     const VoicingWishes& wishes, int count,
                                                     const PlanningBounds& bounds);

}  // namespace compline::guitar
