#pragma once

#include <compline/band/part_writer.hpp>
#include <compline/band/place.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/sound/cue.hpp>

#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <optional>
#include <utility>
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
    /// The same, by another map.
    void start(time::Frames first, roadmap::RoadMap map) {
        map_ = std::move(map);
        start(first);
    }

    /// The frame of bar 1 beat 1, after the count-in. Valid after start().
    [[nodiscard]] time::Frames zero() const { return zero_; }

    /// Pushes, in order, all that starts within two bars and a bit (half a second) of `now`. What
    /// `push` refuses is offered again the next time.
    void feed(time::Frames now, const std::function<bool(const sound::Cue&)>& push);

    /// Goes on by another map, the same before `from_bar`: what was handed over for later is void,
    /// and is handed over anew, by and by. Gives the frame from which on the other side must forget
    /// what it has, before it is fed again. `from_bar`: not in a time through that is over, and
    /// starts a quarter of a second or more behind the last `now` (else what is nearer stays as it
    /// was handed over). The count-in goes on as it began: another tempo or way counts from bar 2
    /// on at the earliest (asserted).
    [[nodiscard]] time::Frames follow(roadmap::RoadMap map, std::int64_t from_bar);

    /// All has been handed over; never without a number of times through. Of a map that has more
    /// since, not any longer.
    [[nodiscard]] bool done() const { return done_; }

  private:
    [[nodiscard]] bool write_until(time::Frames end);
    void write();
    void go_back_to(int time_through);
    [[nodiscard]] time::Frames earliest_at(time::Ticks position) const;
    [[nodiscard]] std::size_t cues_before(time::Frames frame) const;

    roadmap::RoadMap map_;
    band::Players players_;
    band::Stage stage_;
    time::SampleRate rate_;
    time::Frames first_;
    time::Frames zero_;
    time::Frames now_;
    std::optional<band::PartWriter> writer_;
    // As it was before each time through that was written and is not over.
    std::deque<band::PartWriter> writer_before_;
    int written_ = 0;               // times through
    std::vector<sound::Cue> cues_;  // of the last of them, which is being handed over
    std::size_t next_ = 0;
    bool done_ = true;
};

}  // namespace compline::practice
