#pragma once

#include "calendar.hpp"
#include "pupils.hpp"
#include "take.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace compline::month {

/// A take as it was made, with the truth of it.
struct DatedTake {
    Moment when;
    std::string chart;  ///< its file's name; of typed changes the changes
    AskedTake asked;
    MadeTake made;
    bool hardly_played = false;
};

/// A tune on an evening: what is true of it there.
struct TuneThatEvening {
    std::string chart;
    double true_share = 0;  ///< without noise
    double share = 0;       ///< that the evening was meant to have; places that stay bad aside
    double tempo = 0;
};

struct PupilsEvening {
    EveningDate date;
    std::vector<TuneThatEvening> tunes;
    std::vector<DatedTake> takes;
};

struct Weeks {
    Day ends;
    int weeks = 5;
    std::uint64_t seed = 1;
};

/// All evenings of a pupil, in order, each handed over as it is made: one may be large.
/// Deterministic. `charts`: the folder of the charts; `number`: of the pupil, from 0.
void play_weeks(const Pupil& pupil, int number, const Weeks& asked,
                const std::filesystem::path& charts,
                const std::function<void(const PupilsEvening&)>& evening);

}  // namespace compline::month
