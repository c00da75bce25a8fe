#include "sift.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using roadmap::WhoPlays;
using time::Beats;

/// Which of the events of a time through are played.
class Sieve {
  public:
    Sieve(const roadmap::RoadMap& map, int time_through) : map_(map) {
        const auto& way = map.way();
        const auto bars = way.stretch(time_through).passage.bars();
        end_ = Beats(map.bar(map.first_bar(time_through) + bars - 1).end());
        rings_on_ = way.held_ending && time_through == map.times_through();
    }

    /// Before bar 1 the players are counted in, whoever lays out.
    [[nodiscard]] bool lets_through(Beats at, bool WhoPlays::*player) const {
        if (at < Beats(0)) return true;
        if (at >= end_ && !rings_on_) return false;
        return !(bar_at(at).decided_out.*player);
    }

    template <typename Event>
    void sift(std::vector<Event>& events, bool WhoPlays::*player) const {
        const auto stays = [&](const Event& event) {
            return lets_through(Beats(event.at), player);
        };
        events.erase(std::stable_partition(events.begin(), events.end(), stays), events.end());
    }

    [[nodiscard]] Beats end() const { return end_; }

  private:
    [[nodiscard]] roadmap::PlayedBar bar_at(Beats at) const {
        const auto ticks = at.count() * static_cast<double>(time::quarter_note.count());
        return map_.bar_at(time::Ticks(static_cast<std::int64_t>(ticks)));
    }

    const roadmap::RoadMap& map_;
    Beats end_;
    bool rings_on_ = false;  ///< into a held ending
};

}  // namespace

void sift(Part& part, const roadmap::RoadMap& map, int time_through) {
    if (map.decided().empty()) return;
    const Sieve sieve(map, time_through);
    sieve.sift(part.strokes, &WhoPlays::drums);
    sieve.sift(part.notes, &WhoPlays::bass);
    sieve.sift(part.melody, &WhoPlays::melody);
    sieve.sift(part.guitar, &WhoPlays::guitar);
    auto& kicks = part.kicks;
    kicks.erase(std::lower_bound(kicks.begin(), kicks.end(), sieve.end(),
                                 [](time::Ticks at, Beats end) { return Beats(at) < end; }),
                kicks.end());
}

}  // namespace compline::band
