#include "exact.hpp"
#include "finish.hpp"
#include "partials.hpp"
#include "struck.hpp"

#include <compline/sound/noise.hpp>
#include <compline/sound/one_shots.hpp>

#include <utility>

namespace compline::sound {

Samples make_kick(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.40), made_at);
    add_skin(sound, {54, 1.0, 0.085, 0.45, 0.020});
    add_skin(sound, {86, 0.30, 0.035, 0.20, 0.020});
    add_burst(sound, {0.10, 0.006, 60, 700}, Noise(31));  // felt on the skin
    return struck(std::move(sound), 0.60, time::Seconds(0.10), rate);
}

Samples make_tom(time::SampleRate rate) {
    // The modes of a round skin, 1 : 1.59 : 2.14 : 2.30 (Rayleigh, "The Theory of Sound").
    auto sound = canvas(time::Seconds(0.9), made_at);
    constexpr double hz = 84;
    add_skin(sound, {hz, 1.0, 0.20, 0.16, 0.045});
    add_skin(sound, {hz * 1.59, 0.45, 0.11, 0.12, 0.045, 0.1});
    add_skin(sound, {hz * 2.14, 0.22, 0.070, 0.10, 0.045, 0.3});
    add_skin(sound, {hz * 2.30, 0.16, 0.055, 0.10, 0.045, 0.6});
    add_burst(sound, {0.45, 0.0035, 250, 4500}, Noise(61));  // the stick
    return struck(std::move(sound), 0.60, time::Seconds(0.25), rate);
}

Samples make_snare(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.40), made_at);
    add_skin(sound, {186, 0.42, 0.040, 0.10, 0.012});
    add_skin(sound, {186 * 1.59, 0.30, 0.030, 0.08, 0.012, 0.15});
    add_skin(sound, {186 * 2.30, 0.15, 0.018, 0.05, 0.012, 0.4});
    add_burst(sound, {0.30, 0.060, 1000, 7000, 0.0012}, Noise(72));  // the wires
    add_burst(sound, {0.55, 0.0025, 700, 9000}, Noise(71));          // the stick
    return struck(std::move(sound), 0.60, time::Seconds(0.12), rate);
}

Samples make_cross_stick(time::SampleRate rate) {
    // The stick lies on the skin and strikes the rim: wood, the shell's ring, a little of the skin.
    auto sound = canvas(time::Seconds(0.20), made_at);
    add_partials(sound,
                 {{412, 0.30, 0.022, 0.05},
                  {865, 1.00, 0.020, 0.05},
                  {1390, 0.60, 0.013, 0.45},
                  {2240, 0.55, 0.009, 0.05},
                  {3610, 0.30, 0.005, 0.05}},
                 made_at);
    add_burst(sound, {0.50, 0.0015, 1000, 8000, 0.0001}, Noise(81));
    return struck(std::move(sound), 0.55, time::Seconds(0.05), rate);
}

Samples make_stick(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.10), made_at);
    add_partials(sound,
                 {{1850, 1.0, 0.012, 0.05}, {2730, 0.7, 0.009, 0.05}, {4380, 0.4, 0.006, 0.05}},
                 made_at);
    add_burst(sound, {0.6, 0.002, 2000, 9000}, Noise(41));
    return struck(std::move(sound), 0.45, time::Seconds(0.02), rate);
}

Samples make_brush_tap(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.30), made_at);
    add_skin(sound, {192, 0.10, 0.035, 0.04, 0.012});
    add_burst(sound, {0.50, 0.016, 600, 5200, 0.0018}, Noise(91));  // the wires of the brush
    add_burst(sound, {0.10, 0.070, 1200, 6000, 0.006}, Noise(92));  // those under the snare
    return struck(std::move(sound), 0.45, time::Seconds(0.10), rate);
}

Samples make_brush_sweep(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.45), made_at);
    const auto low = noise_between(500, 2600, sound.size(), Noise(96));
    const auto high = noise_between(2600, 6500, sound.size(), Noise(97));
    // The hand is fastest in the middle of its round, and the wires are brightest there.
    constexpr double soft = 0.06;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(sound.size());
        const double speed = 0.5 - 0.5 * cosine(share * (1.35 - 0.35 * share));
        sound[i] = (soft + (1 - soft) * speed) * (0.7 * low[i] + speed * high[i]);
    }
    return struck(std::move(sound), 0.40, time::Seconds(0.06), rate);
}

}  // namespace compline::sound
