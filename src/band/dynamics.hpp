#pragma once

#include <compline/band/place.hpp>

#include <map>
#include <vector>

namespace compline::band {

/// Where things stand on the bandstand, and the level of each beside the others.
struct Stand {
    sound::SoundId sound;
    float gain;
    float pan;
};

[[nodiscard]] Stand stand_of(Drum drum);

inline constexpr float bass_gain = 2.2F;
inline constexpr float guitar_gain = 1.05F;  ///< of a string; a strum has two to five

/// The gains of a tempo.
struct TempoGains {
    explicit TempoGains(time::Bpm at);

    time::Bpm tempo;
    float usual;
    float crowded;
    float kick;
};

/// How loud each moment of a part is played, by the tempo that it has. Of whatever is struck
/// together all get the same gain, so that the balance between players stays.
///
/// A moment is no softer for coming seldom. Raised as much as the music as a whole, those at which
/// much is struck would clip at slow tempi: they are raised as far as there is room, and below 64
/// bpm none is raised further. Constants: scans of the demo charts in every feel, under -1 dBTP and
/// within 2 dB of -20 LUFS (tests/band/true_peak_test.cpp, loudness_test.cpp).
class Dynamics {
  public:
    /// Part and map must outlive it.
    Dynamics(const Part& part, const roadmap::RoadMap& map);

    /// Of the melody, which is played where it stands.
    [[nodiscard]] float usual(time::Beats moment) { return gains(moment).usual * room_; }
    [[nodiscard]] float at(time::Ticks moment);

  private:
    /// Those of the last tempo seen are kept: events come in order, and tempi seldom change.
    const TempoGains& gains(time::Beats moment);
    [[nodiscard]] float struck_at(time::Ticks moment) const;

    const std::vector<time::Ticks>& kicks_;
    const time::TempoMap& tempi_;
    TempoGains gains_;
    float room_;
    std::map<time::Ticks, float> together_;  ///< sums of gains as they are at 132 bpm
};

}  // namespace compline::band
