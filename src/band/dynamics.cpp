#include "dynamics.hpp"

#include <algorithm>
#include <cmath>

namespace compline::band {

namespace {

/// With one more to play, all make a little room: four are about as loud as three.
constexpr float room_for_guitar = 0.88F;

/// Twice as many strokes a minute are 3 dB louder, less what is struck in between anyway: 2 dB in
/// effect. Musicians play softer where it goes fast; so does this band, and a minute of it is as
/// loud at every tempo (tests/band/loudness_test.cpp).
float gain_at(time::Bpm tempo, double loudest_at) {
    constexpr double as_made_at = 132;
    constexpr double two_decibels = 0.36;  // for twice the tempo
    return static_cast<float>(
        std::pow(as_made_at / std::max(tempo.count(), loudest_at), two_decibels));
}

}  // namespace

Stand stand_of(Drum drum) {
    switch (drum) {
        case Drum::ride:
            return {sound::ride, 1.4F, 0.30F};
        case Drum::hihat_foot:
            return {sound::hihat_foot, 2.4F, -0.30F};
        case Drum::kick:
            return {sound::kick, 3.6F, 0.0F};
        case Drum::stick:
            return {sound::stick, 1.5F, 0.0F};
        case Drum::crash:
            return {sound::crash, 1.2F, -0.35F};
        case Drum::cross_stick:
            return {sound::cross_stick, 1.3F, -0.05F};
        case Drum::snare:
            return {sound::snare, 1.0F, -0.05F};
        case Drum::tom:
            return {sound::tom, 1.4F, 0.15F};
        case Drum::brush_tap:
            return {sound::brush_tap, 2.1F, -0.05F};
        case Drum::brush_sweep:
            return {sound::brush_sweep, 2.3F, -0.05F};
    }
    return {sound::stick, 0.0F, 0.0F};
}

TempoGains::TempoGains(time::Bpm at)
    : tempo(at), usual(gain_at(at, 64)), crowded(gain_at(at, 92)), kick(gain_at(at, 170)) {}

Dynamics::Dynamics(const Part& part, const roadmap::RoadMap& map)
    : kicks_(part.kicks),
      tempi_(map.tempi()),
      gains_(map.tempo()),
      room_(map.asked().guitar ? room_for_guitar : 1.0F) {
    for (const auto& stroke : part.strokes) {
        if (stroke.drum == Drum::brush_sweep) continue;  // stirred: it swells
        together_[stroke.at] += gain_of(stroke.velocity) * stand_of(stroke.drum).gain;
    }
    for (const auto& note : part.notes) {
        together_[note.at] += gain_of(note.velocity) * bass_gain;
    }
    for (const auto& note : part.guitar) {
        // Its strings come one after the other and do not quite add up.
        together_[note.at] += gain_of(note.velocity) * guitar_gain * 0.8F;
    }
}

float Dynamics::at(time::Ticks moment) {
    constexpr float full = 3.31F;  // the sum of gains that there is room for
    const auto& here = gains(time::Beats(moment));
    const float most = full / (struck_at(moment) * room_);
    // Struck harder than anything else, by all of the band: as loud at every slower tempo.
    if (std::binary_search(kicks_.begin(), kicks_.end(), moment)) {
        return std::min(most, here.kick) * room_;
    }
    return std::clamp(most, here.crowded, here.usual) * room_;
}

const TempoGains& Dynamics::gains(time::Beats moment) {
    const auto tempo = tempi_.tempo_at(moment);
    if (tempo != gains_.tempo) gains_ = TempoGains(tempo);
    return gains_;
}

float Dynamics::struck_at(time::Ticks moment) const {
    constexpr float hardly_any = 0.1F;
    const auto found = together_.find(moment);
    return found != together_.end() ? std::max(found->second, hardly_any) : hardly_any;
}

}  // namespace compline::band
