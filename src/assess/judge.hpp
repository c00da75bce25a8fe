#pragma once

#include "landing.hpp"

#include <optional>
#include <vector>

namespace compline::assess {

/// Everything one verdict may look at.
struct Evidence {
    const Targets& targets;
    const std::vector<SoundingStrum>& strums;
    const std::vector<listen::Note>& notes;
    const Grid& grid;
    const LandingFinder& finder;
    const std::vector<std::optional<Landing>>& landings;
    const guitar::Fretboard& fretboard;
};

/// When a landed change came: sets verdict, lateness, beats_in and spread.
void judge_landing(const Evidence& evidence, std::size_t i, Change& change);

/// Why a change has no landing: held, laid out or missed.
void judge_absence(const Evidence& evidence, std::size_t i, Change& change);

/// The tones of a landing, and of the strums of the same chord after it.
void judge_tones(const Evidence& evidence, std::size_t i, Change& change);

}  // namespace compline::assess
