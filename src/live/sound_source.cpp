#include "sound_source.hpp"

#include <algorithm>
#include <cmath>

namespace compline::live {

namespace {

constexpr std::uint8_t note_on = 0x90;
constexpr std::uint8_t any_key = 60;
/// A note's length: over before the next onset can come.
constexpr time::Seconds length{0.030};

/// Two steps a decibel, full scale being 127.
std::uint8_t velocity_of(double level_db) {
    return static_cast<std::uint8_t>(std::clamp(127 + std::lround(2 * level_db), 1L, 127L));
}

listen::Arrival arrival(time::Frames at, std::uint8_t velocity) {
    listen::Arrival arrival;
    arrival.message = {note_on, any_key, velocity};
    arrival.timing = listen::Arrival::Timing::at_a_stream_frame;
    arrival.stream_frame = at;
    return arrival;
}

}  // namespace

void SoundSource::read(std::vector<listen::Arrival>& into) {
    for (const auto& onset : ear_.read()) {
        into.push_back(arrival(onset.at, velocity_of(onset.level_db)));
        into.push_back(arrival(onset.at + time::nearest_frame(length, ear_.ear().rate()), 0));
    }
}

MidiPort sound_port(const SoundInput& input, SoundEar& ear) {
    return {std::make_unique<SoundSource>(ear), nullptr, in_words(input)};
}

}  // namespace compline::live
