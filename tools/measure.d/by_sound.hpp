#pragma once

#include "measure.d/confusion.hpp"

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace compline::measure {

// How often time alone is judged rightly: the same pupils, heard by sound. Of each strum, note and
// dead strum that they play the first onset is left, and nothing else; what they did with the tones
// of a chord is no mistake here. Those who play what stands elsewhere in the form are passed over.

struct SoundFigures {
    int clean = 0;  ///< changes that are neither late nor early nor waited for
    int false_alarms = 0;
    int called_late = 0;   ///< of these
    int called_early = 0;  ///< of these
    int missed = 0;        ///< of these, in a rhythm that asks for strums
    int late = 0;          ///< by 60 ms and more beyond what is in time
    int late_found = 0;    ///< something is held against it
    int late_named = 0;    ///< it is called late, and by how much within 10 ms
    int late_placed = 0;   ///< it is taken to come in on a later beat or off-beat
    int early = 0;
    int early_found = 0;
    int laid_out = 0;    ///< not played at all
    int not_struck = 0;  ///< of these

    [[nodiscard]] double false_alarms_in_100() const;
};

struct BySound {
    int takes = 0;
    SoundFigures all;
    std::array<SoundFigures, simulate::comping_count> by_comping;
    std::array<SoundFigures, tempo_bands> by_tempo;
    std::array<DeedFigures, simulate::deed_count> deeds;  ///< named: word and strum, not tones
    DeedFigures simply_played;
    std::vector<Disagreement> disagreements;

    void add(const Pupil& pupil, const simulate::PlayedTune& played,
             const assess::Assessment& assessment);
};

/// Heard by sound and judged.
[[nodiscard]] assess::Assessment judged_by_sound(const Pupil& pupil,
                                                 const simulate::PlayedTune& played);

/// So many pupils, those of confusion(). Deterministic by seed.
[[nodiscard]] BySound by_sound(const std::vector<chart::Form>& forms, int takes,
                               std::uint64_t seed);

}  // namespace compline::measure
