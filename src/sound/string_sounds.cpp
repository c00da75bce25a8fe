#include "exact.hpp"
#include "finish.hpp"
#include "partials.hpp"
#include "resample.hpp"
#include "struck.hpp"

#include <compline/sound/noise.hpp>
#include <compline/sound/one_shots.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace compline::sound {

namespace {

/// A string plucked at a point: partial k has sin(pi k point) of what its place in the row leaves
/// it (the textbook's ideal string), and the higher it is the sooner it is gone.
struct String {
    double point;    // where it is plucked, as a share of its length
    double ring_s;   // decay of the fundamental at 100 Hz, to 1/e
    double dulling;  // partial k decays 1 + dulling (k - 1) times as fast
    int partials;
    double attack_s;  // how soon it is there, to 1/e
    double bloom;     // how much louder it begins than it rings on
    double bloom_s;   // and how long that lasts, to 1/e
    double lengths;   // it is led down to nothing after so many decays
    double peak;
};

// A dark bass that small loudspeakers still show by its second to fifth partials, and the neck
// pickup of an archtop guitar. By ear and by their spectra; no source.
constexpr String bass_string{0.21, 0.35, 0.45, 18, 0.0030, 0.7, 0.060, 6.0, 0.50};
constexpr String guitar_string{0.27, 0.50, 0.40, 12, 0.0010, 0.4, 0.050, 4.0, 0.50};

/// To a millionth, so that the last bit of the C library's power does not matter.
double hz_of(harmony::MidiNote note) { return std::round(note.hz() * 1e6) / 1e6; }

/// Thick strings ring longer, not in proportion: by the fourth root of the length of their cycle.
double ring_of(const String& string, double hz) {
    return string.ring_s * std::sqrt(std::sqrt(100.0 / hz));
}

/// Phases that grow with the square of the place in the row let the partials come one after another
/// and not all at once (Schroeder, "Synthesis of low-peak-factor signals", 1970): the sound has no
/// spikes. The other two numbers were searched for: of all sixteenths of a turn with which the note
/// is there within 7 ms, these leave the lowest peak over the bass's range.
double phase_of(int k, int partials) { return 0.5 * k * k / partials - 0.4375 * k + 0.125; }

std::vector<Partial> partials_of(const String& string, double hz) {
    std::vector<Partial> partials;
    const double ring = ring_of(string, hz);
    for (int k = 1; k <= string.partials; ++k) {
        const double shape = sine(0.5 * k * string.point);
        partials.push_back({hz * k, shape / k, ring / (1.0 + string.dulling * (k - 1)),
                            phase_of(k, string.partials)});
    }
    return partials;
}

/// It comes within `attack_s`, and the pluck stands out from the note.
void shape(std::vector<double>& sound, const String& string, time::SampleRate rate) {
    constexpr double negligible = 1e-7;
    const double attack = shrink_of(string.attack_s * rate.hz());
    const double bloom = shrink_of(string.bloom_s * rate.hz());
    double missing = 1.0;
    double more = string.bloom;
    for (std::size_t i = 0; i < sound.size() && missing + more > negligible; ++i) {
        missing *= attack;
        more *= bloom;
        sound[i] *= (1.0 - missing) * (1.0 + more);
    }
}

std::vector<double> pluck(const String& string, harmony::MidiNote note, time::SampleRate rate) {
    const double hz = hz_of(note);
    auto sound = canvas(time::Seconds(string.lengths * ring_of(string, hz)), rate);
    add_partials(sound, partials_of(string, hz), rate);
    shape(sound, string, rate);
    return sound;
}

/// The finger or the plectrum leaving the string.
void add_touch(std::vector<double>& sound, const Burst& burst, harmony::MidiNote note,
               time::SampleRate rate) {
    auto touch = canvas(time::Seconds(burst.decay_s * 8), made_at);
    add_burst(touch, burst, Noise(100 + static_cast<std::uint64_t>(note.number())));
    touch = resampled(touch, made_at, rate);
    for (std::size_t i = 0; i < std::min(sound.size(), touch.size()); ++i) sound[i] += touch[i];
}

}  // namespace

Samples make_bass(harmony::MidiNote note, time::SampleRate rate) {
    auto sound = pluck(bass_string, note, rate);
    // The thump: the two lowest resonances of the body (the air in it and its top; common knowledge
    // of the instrument's makers, no source) and the finger.
    add_partials(sound, {{66, 0.20, 0.030, 0.1}, {104, 0.30, 0.024, 0.1}}, rate);
    add_touch(sound, {0.16, 0.007, 90, 1400}, note, rate);
    return in_floats(finish(std::move(sound), bass_string.peak, time::Seconds(0.35), rate));
}

Samples make_guitar(harmony::MidiNote note, time::SampleRate rate) {
    auto sound = pluck(guitar_string, note, rate);
    add_touch(sound, {0.10, 0.003, 500, 4500}, note, rate);
    return in_floats(finish(std::move(sound), guitar_string.peak, time::Seconds(0.30), rate));
}

}  // namespace compline::sound
