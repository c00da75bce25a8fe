#pragma once

#include <compline/band/part_writer.hpp>
#include <compline/band/place.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/sound/cue.hpp>

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace compline::practice {

/// Hands the band's strokes to whatever plays them, two bars ahead of what sounds. A loop has no
/// gap: each stroke is placed from its own position, and the bass leads back.
///
/// Threads: one at a time. Real-time: no; that is why it runs ahead.
class Conductor {
  public:
    static constexpr int bars_ahead = 2;

    Conductor(roadmap::RoadMap map, band::Players players, const band::Stage& stage,
              time::SampleRate rate);

    /// Begins at the beginning: the first bar, be it of the count-in, starts at frame `first`.
    void start(time::Frames first);

    /// The frame of bar 1 beat 1, after the count-in. Valid after start().
    [[nodiscard]] time::Frames zero() const { return zero_; }

    /// Pushes, in order, all that starts within two bars and a bit (half a second) of `now`. What
    /// `push` refuses is offered again the next time.
    void feed(time::Frames now, const std::function<bool(const sound::Cue&)>& push);

    /// All has been handed over; never without a number of times through.
    [[nodiscard]] bool done() const { return done_; }

  private:
    [[nodiscard]] bool write_more();

    roadmap::RoadMap map_;
    band::Players players_;
    band::Stage stage_;
    time::SampleRate rate_;
    time::Frames first_;
    time::Frames zero_;
    std::optional<band::PartWriter> writer_;
    std::vector<sound::Cue> cues_;  // of the time through that is being handed over
    std::size_t next_ = 0;
    bool done_ = true;
};

}  // namespace compline::practice
