#pragma once

#include <compline/time/units.hpp>

#include <vector>

namespace compline::sound {

/// A sine that dies away.
struct Partial {
    double hz = 440;
    double amplitude = 1;
    double decay_s = 1;  ///< to 1/e
    double turn = 0;     ///< phase one sample before the first, in turns
};

/// Adds partials to `sound`, each at least a cycle long and until it is inaudible (-90 dB of its
/// amplitude). Those above 0.45 of the rate are left out.
void add_partials(std::vector<double>& sound, const std::vector<Partial>& partials,
                  time::SampleRate rate);

}  // namespace compline::sound
