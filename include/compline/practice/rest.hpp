#pragma once

#include <compline/chart/form.hpp>
#include <compline/time/units.hpp>

#include <optional>

namespace compline::practice {

/// When the fretting hand is to be reminded of a rest: after ten minutes of one loop, and again
/// after each ten more; and once when an evening is 45 minutes old. The usual caution (common
/// practice, no source); what hurts is for a professional to judge.
class RestClock {
  public:
    static constexpr time::Seconds of_one_loop{600};
    static constexpr time::Seconds of_an_evening{2700};

    struct Rests {
        bool from_loop = false;
        bool from_evening = false;
    };

    /// So much time has passed (0 or more), in which there was music, or a pause; the loop that is
    /// played. Of a loop the music alone counts; an evening goes on in a pause, but nobody who
    /// rests is told to.
    Rests pass(time::Seconds time, bool music, std::optional<chart::Passage> loop);

  private:
    std::optional<chart::Passage> loop_;
    time::Seconds in_loop_{0};
    time::Seconds in_evening_{0};
    bool said_of_evening_ = false;
};

}  // namespace compline::practice
