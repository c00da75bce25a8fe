#pragma once

#include <compline/listen/sound_onsets.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::tests {

/// Onsets against those they are held against, each with the nearest within 20 ms.
struct OnsetFigures {
    int wanted = 0;
    int found = 0;               ///< of these
    int extra = 0;               ///< besides
    double bias_ms = 0;          ///< median
    double within_ms_share = 0;  ///< of those found, within 1 ms once the bias is taken off
    double worst_ms = 0;         ///< with the bias
};

[[nodiscard]] OnsetFigures figures_of(const std::vector<double>& wanted_s,
                                      const std::vector<double>& heard_s);

/// All onsets of a sound, given in blocks of so many frames.
[[nodiscard]] std::vector<listen::SoundOnset> onsets_of(const std::vector<float>& sound,
                                                        time::SampleRate rate,
                                                        std::size_t block = 512);

[[nodiscard]] std::vector<double> seconds_of(const std::vector<listen::SoundOnset>& onsets,
                                             time::SampleRate rate);

}  // namespace compline::tests
