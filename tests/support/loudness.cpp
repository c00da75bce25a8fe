#include "loudness.hpp"

#include "figures.hpp"

#include <ebur128.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace compline::tests {

namespace {

constexpr unsigned int sides = 2;

struct Destroy {
    void operator()(ebur128_state* state) const { ebur128_destroy(&state); }
};

void must_succeed(int status) {
    if (status != EBUR128_SUCCESS) throw std::runtime_error("libebur128 refuses the sound");
}

/// A meter that has heard all of a sound.
std::unique_ptr<ebur128_state, Destroy> hear(const sound::Stereo& sound, time::SampleRate rate,
                                             int mode) {
    std::unique_ptr<ebur128_state, Destroy> state(
        ebur128_init(sides, static_cast<unsigned long>(rate.hz()), mode));
    if (!state) throw std::runtime_error("libebur128 has no meter for that rate");
    std::vector<float> interleaved;
    interleaved.reserve(sides * sound.left.size());
    for (std::size_t i = 0; i < sound.left.size(); ++i) {
        interleaved.push_back(sound.left[i]);
        interleaved.push_back(sound.right[i]);
    }
    must_succeed(ebur128_add_frames_float(state.get(), interleaved.data(), sound.left.size()));
    return state;
}

/// The larger of both sides.
template <typename Peak>
double larger(ebur128_state* state, Peak peak_of) {
    double loudest = 0;
    for (unsigned int side = 0; side < sides; ++side) {
        double peak = 0;
        must_succeed(peak_of(state, side, &peak));
        loudest = std::max(loudest, peak);
    }
    return loudest;
}

}  // namespace

const sound::Bank& full_bank() {
    static const sound::Bank made(time::SampleRate(48000), sound::Bank::Guitar::with);
    return made;
}

Loudness loudness_of(const sound::Stereo& sound, time::SampleRate rate) {
    const auto state = hear(sound, rate, EBUR128_MODE_I | EBUR128_MODE_SAMPLE_PEAK);
    Loudness loudness{};
    must_succeed(ebur128_loudness_global(state.get(), &loudness.integrated_lufs));
    loudness.peak_dbfs = decibels(larger(state.get(), ebur128_sample_peak));
    return loudness;
}

double true_peak_of(const sound::Stereo& sound, time::SampleRate rate) {
    return decibels(larger(hear(sound, rate, EBUR128_MODE_TRUE_PEAK).get(), ebur128_true_peak));
}

}  // namespace compline::tests
