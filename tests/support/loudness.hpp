#pragma once

#include <compline/sound/bank.hpp>
#include <compline/sound/wav.hpp>
#include <compline/time/units.hpp>

namespace compline::tests {

// How loud a sound is, as libebur128 measures it (EBU R 128, which gates and weighs as ITU-R
// BS.1770 says).

struct Loudness {
    double integrated_lufs;  ///< of the whole, silence left out; minus infinity for nothing else
    double peak_dbfs;        ///< the largest sample of either side; minus infinity for silence
};

/// All sounds there are, at 48 kHz; made once.
[[nodiscard]] const sound::Bank& full_bank();

[[nodiscard]] Loudness loudness_of(const sound::Stereo& sound, time::SampleRate rate);

/// The true peak of either side in dBTP, by four times as many samples as there are (ITU-R BS.1770,
/// Annex 2): what comes out of a converter between the samples.
[[nodiscard]] double true_peak_of(const sound::Stereo& sound, time::SampleRate rate);

}  // namespace compline::tests
