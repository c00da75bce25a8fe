#pragma once

#include "option.hpp"

#include <compline/chart/form.hpp>
#include <compline/roadmap/asked.hpp>

#include <optional>

namespace compline::app {

/// As the commands have it that play. Throws BadInput when it is read.
[[nodiscard]] Option ladder_option(std::optional<roadmap::AskedLadder>& ladder,
                                   const char* meaning);

/// What a ladder says itself, where it was asked for beside one.
struct BesideLadder {
    bool tempo = false;
    bool times = false;
    bool each_time = false;
    bool road_map = false;
};

/// Throws BadInput that names the option to be left out.
void refuse_beside_ladder(const BesideLadder& beside);

/// The bars that are asked for become those of the ladder, over and over, in the tempo in which it
/// begins. Throws BadInput for bars that no tempo is kept in.
void set_ladder(const roadmap::AskedLadder& ladder, const chart::Form& form, roadmap::Asked& asked);

}  // namespace compline::app
