#pragma once

#include <compline/chart/form.hpp>
#include <compline/guitar/voicing_plan.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::report {

/// A section as it comes in a passage, the first A, the second: its bars and its voicings.
struct SectionPart {
    std::string section;
    chart::Passage bars;
    std::size_t first = 0;          ///< of its voicings, those that begin in its bars
    std::size_t end = 0;            ///< behind the last
    std::optional<std::size_t> as;  ///< an earlier part with the same bars and the same voicings

    /// The hand comes to its first voicing as it does to that of the earlier part.
    bool same_way_in = false;

    /// Else: an earlier part, neither `as` nor `like` another, with the same chords, of which at
    /// least half are held and reached as here; and the voicings that are not.
    std::optional<std::size_t> like;
    std::vector<std::size_t> differing;
};

/// Whether bars of one section that come again may be drawn once: the hand holds there what it
/// held, and so moves as it moved, but perhaps into their first voicing.
[[nodiscard]] bool is_drawn_once(const chart::Form& form, const guitar::VoicingPlan& plan,
                                 chart::Passage earlier, chart::Passage again);

/// The parts of a plan's passage, in order.
[[nodiscard]] std::vector<SectionPart> parts_of(const chart::Form& form,
                                                const guitar::VoicingPlan& plan);

}  // namespace compline::report
