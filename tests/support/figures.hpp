#pragma once

#include <compline/time/units.hpp>

#include <vector>

namespace compline::tests {

// What an ear would say of a sound, as figures.

/// How the sound's energy lies over frequencies: all of its samples transformed at once.
class Spectrum {
  public:
    Spectrum(const std::vector<float>& samples, time::SampleRate rate);

    /// The middle of the energy, in Hz: higher is brighter.
    [[nodiscard]] double centroid() const;
    /// The share of the energy from one frequency to another, 0 to 1.
    [[nodiscard]] double share(double from_hz, double to_hz) const;
    [[nodiscard]] double share_below(double hz) const { return share(0, hz); }
    [[nodiscard]] double share_above(double hz) const { return share(hz, bin_hz_ * size()); }

  private:
    [[nodiscard]] double size() const { return static_cast<double>(power_.size()); }
    std::vector<double> power_;  // of each bin from 0 Hz up
    double bin_hz_;
};

/// Root mean square of a stretch, cut where the sound ends; 0 for none of it.
[[nodiscard]] double level(const std::vector<float>& samples, time::SampleRate rate,
                           time::Seconds from, time::Seconds to);
[[nodiscard]] double level(const std::vector<float>& samples);

/// The largest sample of a stretch, without its sign.
[[nodiscard]] double peak(const std::vector<float>& samples, time::SampleRate rate,
                          time::Seconds from, time::Seconds to);
[[nodiscard]] double peak(const std::vector<float>& samples);

/// A ratio of amplitudes in decibels.
[[nodiscard]] double decibels(double ratio);

/// When the sound has come: its level over a millisecond is within 3 dB of the loudest.
[[nodiscard]] time::Seconds attack(const std::vector<float>& samples, time::SampleRate rate);

/// When the sound has died down: from here on its level over 20 ms, a cycle of the lowest note, is
/// so many decibels (a positive number) below the loudest. The sound's length if it never is.
[[nodiscard]] time::Seconds falls_by(double decibels, const std::vector<float>& samples,
                                     time::SampleRate rate);

}  // namespace compline::tests
