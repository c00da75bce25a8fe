#pragma once

#include "sounding.hpp"
#include "target.hpp"

#include <optional>
#include <vector>

namespace compline::assess {

// How much a strum says for a chord, in nats: what was struck counts before what rings, tones that
// define the chord before others, one foreign tone may be a slip and two are hardly one.
//
// Constants: from a prototype that read simulated takes; whoever changes one sees by `tools/bench
// confusion` what it does.

struct Fit {
    double nats = 0;
    double struck = 0;   ///< the part of it that what was struck has, whatever is missing
    int foreign = 0;     ///< notes struck that do not belong
    bool whole = false;  ///< nothing foreign struck, no defining tone missing
    bool slip = false;   ///< whole, were one finger a fret or two from where it is
};

/// Fits of strums to chords, each worked out once. The strums and targets must outlive it.
class FitTable {
  public:
    FitTable(const std::vector<SoundingStrum>& strums, const Targets& targets);

    /// Of a strum as the chord of a target. may_slip: a missing tone is forgiven where a foreign
    /// one lies within two semitones, as a finger that is a fret off makes it; not for a grip that
    /// has not moved from the chord before.
    [[nodiscard]] const Fit& of(std::size_t strum, std::size_t target) const;

    /// Struck tones of the chord that tell it from others.
    [[nodiscard]] bool tells(std::size_t strum, std::size_t target) const;

  private:
    /// Of one palette.
    struct PaletteTones {
        const harmony::Palette* palette;
        harmony::PitchClasses defining;
    };
    [[nodiscard]] Fit work_out(const SoundingStrum& strum, const PaletteTones& chord) const;

    const std::vector<SoundingStrum>& strums_;
    const Targets& targets_;
    std::vector<PaletteTones> chords_;
    mutable std::vector<std::optional<Fit>> fits_;  ///< strum by strum
};

}  // namespace compline::assess
