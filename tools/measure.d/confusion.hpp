#pragma once

#include "measure.d/pupils.hpp"

#include <compline/assess/assessment.hpp>

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace compline::measure {

// How often the judge is right: pupils play with known mistakes, are heard and judged, and what was
// said is compared with what was done. The guitarist shares nothing with the judge but the chart.

/// Figures of some takes. Clean: neither a mistake nor a wait; liberties are clean.
struct Figures {
    int takes = 0;
    int unjudged = 0;  ///< changes that the judge passes over
    int clean = 0;
    int false_alarms = 0;
    int own_word = 0;  ///< of the clean
    int strum = 0;     ///< of the clean: said of the strum that was meant
    int clean_called_late = 0;
    int mistakes = 0;
    int found = 0;
    int named = 0;
    int called_missed = 0;
    int truly_missed = 0;
    int called_early = 0;
    int truly_early = 0;
    int timed = 0;  ///< clean changes that are measured from a beat
    // How far off the lateness was, in milliseconds.
    double error_sum = 0;
    double error_squares = 0;

    [[nodiscard]] double false_alarms_in_100() const;
    [[nodiscard]] double found_rate() const;  ///< 0 to 1; 1 where there was nothing to find
    [[nodiscard]] double named_rate() const;
    [[nodiscard]] double own_word_rate() const;
    [[nodiscard]] double strum_rate() const;
    [[nodiscard]] double missed_precision() const;
    [[nodiscard]] double early_precision() const;
    [[nodiscard]] double error_sd_ms() const;
};

/// What was done so often, and how often the judge says so. Of a mistake found: something is held
/// against it; of all else: nothing is. Named: exactly what it was.
struct DeedFigures {
    int done = 0;
    int found = 0;
    int named = 0;
};

struct Disagreement {
    bool clean = true;
    std::string where;
    std::string done;
    std::string said;
};

inline constexpr int tempo_bands = 4;
[[nodiscard]] std::string tempo_band_name(int band);
[[nodiscard]] std::size_t tempo_band(double bpm);
inline constexpr int sustains = 3;
[[nodiscard]] std::string sustain_name(int sustain);
inline constexpr int places = 2;
[[nodiscard]] std::string place_name(int place);

struct Confusion {
    Figures all;
    std::array<Figures, simulate::comping_count> by_comping;
    std::array<Figures, tempo_bands> by_tempo;
    std::array<Figures, sustains> by_sustain;
    std::array<Figures, simulate::channels_count> by_channels;
    std::array<Figures, places> by_place;  ///< on the beat, and 15 ms and more behind it
    std::array<DeedFigures, simulate::deed_count> deeds;
    DeedFigures simply_played;
    DeedFigures after_nothing;  ///< the first chord, and after N.C.
    std::vector<Disagreement> disagreements;

    [[nodiscard]] const DeedFigures& operator[](simulate::Deed deed) const {
        return deeds[static_cast<std::size_t>(deed)];
    }
    void add(const Pupil& pupil, const simulate::PlayedTune& played,
             const assess::Assessment& assessment);
};

[[nodiscard]] Disagreement disagreement(const Pupil& pupil, const simulate::PlayedChange& done,
                                        const assess::Change& said);

/// Heard as MIDI and judged, as `score` does.
[[nodiscard]] assess::Assessment judged(const Pupil& pupil, const simulate::PlayedTune& played);

/// So many pupils on the demo charts and on tunes by chance. Deterministic by seed.
[[nodiscard]] Confusion confusion(const std::vector<chart::Form>& forms, int takes,
                                  std::uint64_t seed);

}  // namespace compline::measure
