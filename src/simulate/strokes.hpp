#pragma once

#include "chorus_plan.hpp"

#include <vector>

namespace compline::simulate {

/// A stroke of the right hand, and what the left hand lets become of it.
struct Stroke {
    enum class Kind {
        grip,
        line,  ///< single notes and double-stops: melody, bass
        dead,
    };
    Kind kind = Kind::grip;
    bool may_go = false;  ///< only comping: left out where the hand has no time for it
    ScriptedStrum strum;
    time::Seconds on;                    ///< its first onset
    std::optional<time::Seconds> until;  ///< rings until then at most
    bool held = false;                   ///< rings until then, whatever is usual
};

/// In order of time, without those the hand has no time for.
void put_in_order(std::vector<Stroke>& strokes);

/// Lets each stroke ring as long as a player would: short or long by chance, at most until the next
/// grip takes its fingers away, which lift a little late. Under lines a grip may ring on.
[[nodiscard]] std::vector<ScriptedStrum> let_ring(const std::vector<Stroke>& strokes,
                                                  const Hand& hand, Chance& chance);

}  // namespace compline::simulate
