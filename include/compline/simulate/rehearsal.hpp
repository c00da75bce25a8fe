#pragma once

#include <compline/chart/form.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/simulate/guitarist.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace compline::simulate {

/// A mistake that the simulated guitarist makes on purpose.
enum class Mistake { late, wrong_tone, stuck_finger, missing_tone, missed };
[[nodiscard]] std::string name_of(Mistake mistake);

struct PlantedMistake {
    Mistake kind = Mistake::late;
    int pass = 1;
    int bar = 1;
    double beat = 1;
    std::string words;  ///< what was done, for a reader
};

/// A practice session that never happened: what was played, and what was wrong with it.
struct Rehearsal {
    std::vector<ScriptedStrum> script;
    std::vector<PlantedMistake> mistakes;  ///< in order of time
};

struct RehearsalRequest {
    int times_through = 2;
    std::uint64_t seed = 1;
    time::Seconds scatter{0.009};  ///< standard deviation of the player's time
    time::Seconds late_by{0.095};
    /// The voicings to play, of the whole form, on a guitar in standard tuning; none: simple
    /// shells. It must outlive the call.
    const guitar::VoicingPlan* voicings = nullptr;
};

/// A guitarist comps a form: a chord where it starts, and in a long bar again on the off-beat after
/// its second beat; now and then a chord comes early by an off-beat. Plants one of each kind of
/// mistake, where the voicings on either side make it plain. Deterministic by seed.
[[nodiscard]] Rehearsal rehearse(const chart::Form& form, const time::Groove& groove,
                                 const RehearsalRequest& request);

}  // namespace compline::simulate
