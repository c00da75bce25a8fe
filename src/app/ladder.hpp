#pragma once

#include "music_options.hpp"

#include <compline/chart/form.hpp>
#include <compline/roadmap/asked.hpp>

#include <optional>

namespace compline::app {

/// As the commands have it that play. Throws BadInput when it is read.
[[nodiscard]] Option ladder_option(std::optional<roadmap::AskedLadder>& ladder,
                                   const char* meaning);

/// Throws BadInput for what a ladder says itself and was asked for beside it, naming the option to
/// be left out.
void refuse_beside_ladder(const MusicOptions& options);

/// The bars that are asked for become those of the ladder, over and over, in the tempo in which it
/// begins. Throws BadInput for bars that no tempo is kept in.
void set_ladder(const roadmap::AskedLadder& ladder, const chart::Form& form, roadmap::Asked& asked);

}  // namespace compline::app
