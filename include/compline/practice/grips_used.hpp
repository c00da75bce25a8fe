#pragma once

#include <compline/chart/form.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/practice/report.hpp>

#include <string>
#include <vector>

namespace compline::practice {

// The grips of a take that a plan of voicings can be made of: for each chord of each bar the one
// that was used most often there, of several as often the first, if it is right for the chord and a
// hand can hold it. Whoever plans pins them (chart::Pin), and what was not played is planned around
// them.

/// A grip in which a chord landed.
struct UsedGrip {
    int bar = 1;  ///< number in the unrolled form
    harmony::Chord chord;
    guitar::Shape shape;
    int times = 0;  ///< in all times through
    /// Why it is left out: "which lacks the 3"; empty: it is kept, or another one is used more.
    std::string why_not = {};
};

struct GripsUsed {
    std::vector<UsedGrip> kept;      ///< one for each chord of a bar, in order
    std::vector<UsedGrip> left_out;  ///< in order; with a reason, or used less than the kept one
    struct OpenChord {
        int bar = 1;
        harmony::Chord chord;
    };
    std::vector<OpenChord> open;  ///< chords for which no grip is kept, in order

    [[nodiscard]] std::vector<chart::Pin> pins() const;
};

/// The grips that a report's changes landed in, in a passage of its form. None where strings are
/// not known. `strictness`: how literally the plan takes the chart.
[[nodiscard]] GripsUsed grips_used(const Report& report, chart::Passage passage,
                                   harmony::Strictness strictness);

}  // namespace compline::practice
