#pragma once

#include <compline/guitar/voicing_plan.hpp>

#include <memory>
#include <optional>
#include <vector>

namespace compline::guitar {

/// What lies near: of all grips that a chord of a tune may have, the one that a plan would take
/// next if it saw no further than this change. Its costs are those of plans (see effort.hpp), the
/// sound as well as the way.
class NearGrips {
  public:
    /// Throws text::BadInput where the passage cannot be played.
    NearGrips(const chart::Form& form, chart::Passage passage, const Fretboard& fretboard,
              const VoicingWishes& wishes);
    ~NearGrips();
    NearGrips(const NearGrips&) = delete;
    NearGrips& operator=(const NearGrips&) = delete;

    /// From a grip to the chord that begins at a place of the form. On the strings wished for;
    /// where none are, on the usual ones and those of these two grips, `instead` being what was
    /// taken. None where no chord begins there, or no hand holds one on these strings.
    [[nodiscard]] std::optional<Grip> nearest(time::Ticks in_form, const Grip& from,
                                              const Grip& instead);

  private:
    class Nearby;
    std::unique_ptr<Nearby> nearby_;
};

}  // namespace compline::guitar
