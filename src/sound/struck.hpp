#pragma once

#include <compline/sound/noise.hpp>
#include <compline/sound/one_shots.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::sound {

/// What is struck or brushed is computed at one rate and resampled, so that a sound is one sound at
/// every rate: noise drawn anew for each would be another stroke.
inline constexpr time::SampleRate made_at{48000};

/// Noise between two frequencies that comes at once, or swells, and dies away.
struct Burst {
    double amplitude;  ///< near its root mean square at the start
    double decay_s;    ///< to 1/e
    double from_hz;    ///< 12 dB an octave below
    double to_hz;      ///< 24 dB an octave above
    double swell_s = 0;
};

/// Adds a burst to a sound made at `made_at`, until it is inaudible.
void add_burst(std::vector<double>& sound, const Burst& burst, Noise noise);

/// Noise between two frequencies, of a root mean square near 1.
[[nodiscard]] std::vector<double> noise_between(double from_hz, double to_hz, std::size_t length,
                                                Noise noise);

/// A skin when it is struck: its tone begins higher, being tighter, and falls as it dies away.
struct Skin {
    double hz;
    double amplitude;
    double decay_s;          ///< to 1/e
    double sharp;            ///< how much higher it begins, as a share
    double settle_s = 0.03;  ///< how soon it is down, to 1/e
    double turn = 0;         ///< the phase it begins with
};

/// Adds it to a sound made at `made_at`.
void add_skin(std::vector<double>& sound, const Skin& skin);

/// Makes a sound at `rate` of one made at `made_at`: nothing steady in it, of that peak, its end
/// led down to nothing over `fade`.
[[nodiscard]] Samples struck(std::vector<double> sound, double peak, time::Seconds fade,
                             time::SampleRate rate);

}  // namespace compline::sound
