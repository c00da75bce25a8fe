#pragma once

#include <compline/listen/note.hpp>
#include <compline/roadmap/road_map.hpp>

#include <cstdint>
#include <span>
#include <vector>

namespace compline::practice {

// How well strums fit a chart at a glance: by pitch classes, an eighth at a time, and by where they
// lie in the beat. It chooses what is worth judging, and judges nothing.

using PitchClassBits = std::uint16_t;  // C is bit 0

/// Two strings or more, struck together.
struct RoughStrum {
    time::Seconds at;
    PitchClassBits tones = 0;
};
[[nodiscard]] std::vector<RoughStrum> rough_strums(std::span<const listen::Note> notes);

/// What was played, taken for something else.
struct Moved {
    time::Seconds later{0};  ///< bar 1 is so much later
    double faster = 1;       ///< the tempo is so many times as fast
    int semitones = 0;       ///< the chart is so much higher
};

class RoughFit {
  public:
    /// Of a road map that ends, and is as long as what is compared with it.
    explicit RoughFit(const roadmap::RoadMap& map);

    /// -1 (no tone is in its chord) to 1 (all are). A chord may come an off-beat early.
    [[nodiscard]] double of_tones(std::span<const RoughStrum> strums, const Moved& moved) const;

    enum class OffBeats { count_less, count_alike };
    /// 0 to 1: how near strums lie to beats and off-beats of the feel.
    [[nodiscard]] double of_time(std::span<const RoughStrum> strums, const Moved& moved,
                                 OffBeats off_beats = OffBeats::count_less) const;

  private:
    [[nodiscard]] double written(const RoughStrum& strum, const Moved& moved) const;
    [[nodiscard]] double of_tones(PitchClassBits tones, std::int64_t eighth) const;

    roadmap::RoadMap map_;
    std::vector<PitchClassBits> chords_;  ///< by written eighth; 0: none
};

}  // namespace compline::practice
