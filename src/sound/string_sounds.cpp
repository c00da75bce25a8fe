#include "finish.hpp"
#include "partials.hpp"

#include <compline/sound/noise.hpp>
#include <compline/sound/one_shots.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>

namespace compline::sound {

namespace {

/// A string plucked at a point: partial k has sin(pi k point) of what its place in the row leaves
/// it (the textbook's ideal string), and the higher it is the sooner it is gone.
struct String {
    double point;     // where it is plucked, as a share of its length
    double darkness;  // amplitude of partial k: k to the power of minus this
    double ring_s;    // decay of the fundamental at 100 Hz, to 1/e
    double dulling;   // partial k decays 1 + dulling (k - 1) times as fast
    int partials;
    double attack_s;  // how soon it is there
    double length_s;
    double peak;
};

// A dark, short-ringing bass that small loudspeakers still show by its second to fifth partials,
// and the neck pickup of an archtop guitar. By ear and by their spectra; no source.
constexpr String bass_string{0.21, 1.0, 0.85, 0.45, 18, 0.0035, 1.5, 0.60};
constexpr String guitar_string{0.27, 1.25, 0.75, 0.40, 12, 0.0010, 1.4, 0.50};

std::vector<Partial> partials_of(const String& string, double hz) {
    std::vector<Partial> partials;
    const double ring = string.ring_s * std::sqrt(100.0 / hz);
    for (int k = 1; k <= string.partials; ++k) {
        const double shape = std::sin(3.141592653589793 * k * string.point);
        partials.push_back({hz * k, shape / std::pow(k, string.darkness),
                            ring / (1.0 + string.dulling * (k - 1)), 0});
    }
    return partials;
}

/// The finger or the plectrum leaving the string: a few milliseconds of dull noise.
void add_touch(std::vector<double>& sound, double amplitude, Noise noise, time::SampleRate rate) {
    constexpr double gone = 1e-5;
    const double shrink = std::exp(-1.0 / (0.004 * rate.hz()));
    double dull = 0;
    for (std::size_t i = 0; i < sound.size() && amplitude > gone; ++i) {
        dull += 0.15 * (noise.next() - dull);
        sound[i] += amplitude * dull;
        amplitude *= shrink;
    }
}

void soften_attack(std::vector<double>& sound, double attack_s, time::SampleRate rate) {
    constexpr double there = 1e-6;
    const double shrink = std::exp(-1.0 / (attack_s * rate.hz()));
    double missing = 1.0;
    for (std::size_t i = 0; i < sound.size() && missing > there; ++i) {
        missing *= shrink;
        sound[i] *= 1.0 - missing;
    }
}

Samples pluck(const String& string, harmony::MidiNote note, double touch, time::SampleRate rate) {
    auto sound = canvas(time::Seconds(string.length_s), rate);
    add_partials(sound, partials_of(string, note.hz()), rate);
    soften_attack(sound, string.attack_s, rate);
    add_touch(sound, touch, Noise(100 + static_cast<std::uint64_t>(note.number())), rate);
    return finish(sound, string.peak, time::Seconds(0.2), rate);
}

}  // namespace

Samples make_bass(harmony::MidiNote note, time::SampleRate rate) {
    return pluck(bass_string, note, 0.5, rate);
}

Samples make_guitar(harmony::MidiNote note, time::SampleRate rate) {
    return pluck(guitar_string, note, 0.3, rate);
}

}  // namespace compline::sound
