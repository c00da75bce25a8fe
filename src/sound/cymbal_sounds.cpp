#include "exact.hpp"
#include "finish.hpp"
#include "partials.hpp"
#include "struck.hpp"

#include <compline/sound/noise.hpp>
#include <compline/sound/one_shots.hpp>

#include <utility>

namespace compline::sound {

namespace {

/// Where a cymbal's partials lie, and how they ring.
struct Cymbal {
    int partials;
    double lowest_hz;
    double octaves;    // from the lowest to the highest
    double loudest;    // the loudest, so many octaves above the lowest
    double spread;     // octaves from the loudest to where they are 0.6 of it
    double longest_s;  // decay of the lowest to 1/e
    double dulling;    // an octave higher decays so many times as fast
};

/// Partials strewn over a range as a cymbal's are: dense, in no ratio to each other.
std::vector<Partial> partials_of(const Cymbal& cymbal, double amplitude, Noise noise) {
    std::vector<Partial> partials;
    for (int i = 0; i < cymbal.partials; ++i) {
        const double place = (i + 0.5 + 0.45 * noise.next()) / cymbal.partials;
        const double octave = cymbal.octaves * place;
        const double away = (octave - cymbal.loudest) / cymbal.spread;
        partials.push_back(
            {cymbal.lowest_hz * octaves_up(octave), amplitude * exponential(-0.5 * away * away),
             cymbal.longest_s * octaves_up(-(cymbal.dulling - 1) * octave), 0.5 * noise.next()});
    }
    return partials;
}

}  // namespace

Samples make_ride(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(1.8), made_at);
    const Cymbal body{40, 330, 4.8, 3.0, 1.3, 0.62, 1.25};
    add_partials(sound, partials_of(body, 0.020, Noise(11)), made_at);
    const Cymbal ping{14, 2100, 1.5, 0.7, 0.5, 0.055, 1.2};
    add_partials(sound, partials_of(ping, 0.085, Noise(15)), made_at);
    // The wash: the brighter, the sooner gone.
    add_burst(sound, {0.055, 0.45, 1200, 4000, 0.012}, Noise(12));
    add_burst(sound, {0.100, 0.33, 4000, 9500, 0.008}, Noise(14));
    add_burst(sound, {0.45, 0.0028, 2500, 11000, 0.0001}, Noise(13));  // the stick's tip
    return struck(std::move(sound), 0.50, time::Seconds(0.4), rate);
}

Samples make_crash(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(2.5), made_at);
    const Cymbal body{56, 260, 5.2, 3.2, 1.5, 0.85, 1.25};
    add_partials(sound, partials_of(body, 0.030, Noise(51)), made_at);
    // It opens: the high ones come after the blow and go before the low ones.
    add_burst(sound, {0.15, 0.55, 600, 3500, 0.006}, Noise(52));
    add_burst(sound, {0.22, 0.42, 3500, 8000, 0.012}, Noise(54));
    add_burst(sound, {0.12, 0.25, 8000, 13500, 0.010}, Noise(55));
    add_burst(sound, {0.60, 0.004, 500, 12000}, Noise(53));  // the shoulder of the stick
    return struck(std::move(sound), 0.55, time::Seconds(0.6), rate);
}

Samples make_hihat_foot(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.11), made_at);
    const Cymbal body{20, 800, 3.6, 2.2, 1.2, 0.022, 1.15};
    add_partials(sound, partials_of(body, 0.030, Noise(21)), made_at);
    add_burst(sound, {0.30, 0.0125, 2600, 10500}, Noise(22));
    return struck(std::move(sound), 0.45, time::Seconds(0.03), rate);
}

}  // namespace compline::sound
