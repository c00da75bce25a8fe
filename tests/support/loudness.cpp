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

}  // namespace

Loudness loudness_of(const sound::Stereo& sound, time::SampleRate rate) {
    const std::unique_ptr<ebur128_state, Destroy> state(ebur128_init(
        sides, static_cast<unsigned long>(rate.hz()), EBUR128_MODE_I | EBUR128_MODE_SAMPLE_PEAK));
    if (!state) throw std::runtime_error("libebur128 has no meter for that rate");
    std::vector<float> interleaved;
    interleaved.reserve(sides * sound.left.size());
    for (std::size_t i = 0; i < sound.left.size(); ++i) {
        interleaved.push_back(sound.left[i]);
        interleaved.push_back(sound.right[i]);
    }
    must_succeed(ebur128_add_frames_float(state.get(), interleaved.data(), sound.left.size()));
    Loudness loudness{};
    must_succeed(ebur128_loudness_global(state.get(), &loudness.integrated_lufs));
    double loudest = 0;
    for (unsigned int side = 0; side < sides; ++side) {
        double peak = 0;
        must_succeed(ebur128_sample_peak(state.get(), side, &peak));
        loudest = std::max(loudest, peak);
    }
    loudness.peak_dbfs = decibels(loudest);
    return loudness;
}

}  // namespace compline::tests
