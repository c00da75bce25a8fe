#pragma once

#include <compline/chart/form.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/report/fret_diagram.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::report {

// Voicings of a whole tune, to be read, to be worked with and to be played from.

/// Plans with all that a reader needs to understand them.
struct Voicings {
    chart::Form form;
    guitar::VoicingWishes wishes;
    std::vector<guitar::VoicingPlan> plans;          ///< one at least, the best first
    std::optional<guitar::VoicingPlan> guide_tones;  ///< the line, where it is asked for
    bool from_take = false;  ///< grips that were played are pinned as the chart pins its own
};

/// Plain text of at most 80 columns: the guide tones, where they are asked for; of the best plan a
/// diagram a change, below each row of them what the hand does; a section that comes again with the
/// same voicings is named, not drawn again. Then the sum of one time through, and in what the other
/// plans differ. Ends with a newline.
[[nodiscard]] std::string voicings_text(const Voicings& voicings, Hand hand = Hand::right);

/// The best plan's diagrams alone, and what the hand does from one to the next.
[[nodiscard]] std::string grips_text(const Voicings& voicings, Hand hand = Hand::right);

/// JSON, "schema": "compline.voicings/1", as voicings-1.schema.json beside the source says. Note
/// names, degrees and symbols in plain letters. Ends with a newline. The same plans give the same
/// bytes, whatever the locale.
[[nodiscard]] std::string voicings_json(const Voicings& voicings);

}  // namespace compline::report
