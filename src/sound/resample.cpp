#include "resample.hpp"

#include "exact.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace compline::sound {

namespace {

constexpr double half_width = 16;  // zero crossings on each side
constexpr double pi = 3.141592653589793;

/// The kernel at so many zero crossings from its middle, under Blackman's window.
double kernel(double away) {
    if (std::fabs(away) >= half_width) return 0.0;
    const double window =
        0.42 + 0.5 * cosine(away / half_width / 2) + 0.08 * cosine(away / half_width);
    return away == 0 ? window : window * sine(away / 2) / (pi * away);
}

}  // namespace

std::vector<double> resampled(const std::vector<double>& sound, time::SampleRate from,
                              time::SampleRate to) {
    if (from == to) return sound;
    // Output sample n lies at n * step / phases samples of the input; there are so many different
    // places between two samples.
    const auto common = std::gcd(from.hz(), to.hz());
    const auto phases = static_cast<std::size_t>(to.hz() / common);
    const auto step = static_cast<std::size_t>(from.hz() / common);
    // Zero crossings a sample of the input: fewer when the new rate holds less.
    const double crossings = std::min(1.0, static_cast<double>(to.hz()) / from.hz());
    const auto reach = static_cast<std::size_t>(half_width / crossings);
    constexpr std::size_t lanes = 4;  // sums side by side, which keep the processor busy
    const std::size_t taps = (2 * reach + 1 + lanes - 1) / lanes * lanes;
    std::vector<double> kernels(phases * taps);
    for (std::size_t phase = 0; phase < phases; ++phase) {
        const double between = static_cast<double>(phase) / static_cast<double>(phases);
        for (std::size_t tap = 0; tap < taps; ++tap) {
            const double away = static_cast<double>(tap) - static_cast<double>(reach) - between;
            kernels[phase * taps + tap] = crossings * kernel(away * crossings);
        }
    }
    std::vector<double> padded(sound.size() + taps);
    std::copy(sound.begin(), sound.end(), padded.begin() + static_cast<std::ptrdiff_t>(reach));
    std::vector<double> out((sound.size() * phases + step / 2) / step);
    for (std::size_t n = 0; n < out.size(); ++n) {
        const double* at = padded.data() + n * step / phases;
        const double* weights = kernels.data() + n * step % phases * taps;
        std::array<double, lanes> sums{};
        for (std::size_t tap = 0; tap < taps; tap += lanes) {
            for (std::size_t i = 0; i < lanes; ++i) sums[i] += weights[tap + i] * at[tap + i];
        }
        out[n] = (sums[0] + sums[1]) + (sums[2] + sums[3]);
    }
    return out;
}

}  // namespace compline::sound
