#pragma once

#include "chorus_plan.hpp"
#include "strokes.hpp"

#include <optional>
#include <vector>

namespace compline::simulate {

/// What is played before or after the strum that lands a change, beside comping it.
struct Figure {
    struct Part {
        Stroke::Kind kind;
        time::Ticks in;  ///< from the change's place in the chart
        guitar::Shape shape;
    };
    std::vector<Part> parts;

    [[nodiscard]] std::string words() const;
};

/// The figure of a deed that is one (lead-in, approach, passing chord, fill, dead strum) at change
/// i, at least 1; nothing where chord, tempo or neck leave no room for it.
[[nodiscard]] std::optional<Figure> figure(Deed deed, const std::vector<PlannedChange>& plan,
                                           std::size_t i, const chart::Form& form, const Hand& hand,
                                           Chance& chance);

}  // namespace compline::simulate
