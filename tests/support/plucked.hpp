#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <vector>

namespace compline::tests {

/// A string that is plucked, and let ring until it is plucked again, or damped.
struct Pluck {
    time::Seconds at;
    int string = 1;
    harmony::MidiNote note{60};
    double level_db = -6;  ///< its largest sample, in dB of full scale; softer is duller
    time::Seconds rings{10};
    bool operator==(const Pluck&) const = default;
};

/// Strings as a guitar's output has them, with nothing of the program in it: a burst of noise that
/// runs round a loop as long as the wave (Karplus and Strong, "Digital synthesis of plucked-string
/// and drum timbres", 1983), in which high frequencies die away within a second. Its first sample
/// is on the frame nearest to `at`. A string that rings is damped for 5 ms before it is plucked
/// again, as by the pick that comes to lie on it.
[[nodiscard]] std::vector<float> plucked(const std::vector<Pluck>& plucks, time::SampleRate rate,
                                         time::Seconds length, std::uint64_t seed);

/// The mains in the sound: a tone and its odd and even harmonics up to the tenth, so loud all
/// together (largest sample).
void add_hum(std::vector<float>& sound, time::SampleRate rate, double hz, double level_db);

/// An even hiss (root mean square).
void add_hiss(std::vector<float>& sound, double level_db, std::uint64_t seed);

/// A finger that slides along a wound string: noise around a frequency that rises, without a body,
/// swelling and fading over 80 ms.
void add_squeak(std::vector<float>& sound, time::SampleRate rate, time::Seconds at, double level_db,
                std::uint64_t seed);

}  // namespace compline::tests
