#pragma once

#include <compline/practice/take.hpp>

#include <cmath>
#include <cstdint>
#include <utility>

namespace compline::practice {

/// Seconds to the ticks of a take's file. Its tempo is in whole microseconds; ticks are counted by
/// that, so that times come back as they were. The file's tempo is that with which the music begins
/// and stays: nobody knows the next one while a take is being written.
class TakeTicks {
  public:
    explicit TakeTicks(const roadmap::RoadMap& map)
        : seconds_per_tick_(std::round(60e6 / map.tempo().count()) / 1e6 / take_division),
          lead_(map.lead()) {}
    [[nodiscard]] std::int64_t operator()(time::Seconds t) const {
        return std::llround(std::max((t + lead_).count(), 0.0) / seconds_per_tick_);
    }

  private:
    double seconds_per_tick_;
    time::Seconds lead_;
};

/// Where events must stand so that none is further from the one before than a file can say: hours
/// of silence are possible.
template <typename Add>
void bridge(std::int64_t from, std::int64_t to, const Add& add) {
    for (; to - from > midi::most_ticks_apart; from += midi::most_ticks_apart) {
        add(from + midi::most_ticks_apart, midi::text_event(midi::meta::text, listening_text));
    }
}

/// What came from a pedal's own port, as a text: no reader can take that for music.
[[nodiscard]] midi::Event pedal_event(const midi::Message& message);
[[nodiscard]] midi::Event cable_event(const listen::CableEvent& event);

/// A file of these notes, its conductor's track made of what the take says of itself.
[[nodiscard]] midi::File file_with(const std::optional<TakeInfo>& info, const roadmap::RoadMap& map,
                                   midi::Track notes);

}  // namespace compline::practice
