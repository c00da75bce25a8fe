#include "right_hand.hpp"

#include <algorithm>

namespace compline::simulate {

namespace {

using time::Seconds;
using time::Ticks;

constexpr double widest = 2.2;      // standard deviations: what is meant in time is in time
constexpr Seconds shortest{0.075};  // anything shorter is a dead strum
constexpr Seconds dead_length{0.045};
constexpr Seconds slowest_rake{0.006};
constexpr Seconds fastest_rake{0.002};

class RingTimes {
  public:
    RingTimes(const Road& road, const Habits& habits, const Strokes& strokes, Chance& chance)
        : road_(road), habits_(habits), strokes_(strokes), chance_(chance) {
        const double rake = chance_.uniform();
        per_string_ = fastest_rake + (slowest_rake - fastest_rake) * rake;
        std::sort(cuts_.begin(), cuts_.end());
    }

    std::vector<ScriptedStrum> play() {
        bool up = false;
        for (const auto& stroke : strokes_.all) {
            script_.push_back(strum_of(stroke, stroke.broken || up));
            up = stroke.up;
        }
        for (std::size_t i = 0; i < script_.size(); ++i) script_[i].length = length_of(i);
        return std::move(script_);
    }

  private:
    /// `goes_on`: strings of a broken chord, and the beat after an up-stroke, are one gesture.
    ScriptedStrum strum_of(const HandStroke& stroke, bool goes_on) {
        ScriptedStrum strum;
        strum.at = stroke.at;
        strum.lateness = stroke.off + (stroke.exact ? Seconds(0) : own_time(stroke.at, goes_on));
        const bool off_beat = stroke.at % beat != Ticks(0);
        if (off_beat && !stroke.exact) strum.lateness += habits_.off_beats;
        strum.shape = stroke.shape;
        strum.velocity = 68 + static_cast<int>(chance_.below(28));
        strum.per_string = per_string_;
        if (stroke.up) {
            // Upwards: the highest string first, and that one where the stroke was meant.
            const auto strings = static_cast<double>(stroke.shape.places().size());
            strum.lateness += per_string_ * (strings - 1);
            strum.per_string = -per_string_;
        }
        return strum;
    }

    Seconds own_time(Ticks at, bool goes_on) {
        if (!goes_on) {
            const Seconds sd = std::min(habits_.scatter, road_.tolerance_at(at) * (1.0 / 3));
            own_ = habits_.place + sd * std::clamp(chance_.scatter(), -widest, widest);
        }
        return own_;
    }

    [[nodiscard]] Seconds on(std::size_t i) const {
        return road_.time_of(script_[i].at) + script_[i].lateness;
    }

    /// The next stroke that takes the hand away from this one.
    [[nodiscard]] std::optional<std::size_t> next_of(std::size_t i) const {
        const bool single = strokes_.all[i].kind == HandStroke::Kind::single;
        for (std::size_t n = i + 1; n < strokes_.all.size(); ++n) {
            const auto& next = strokes_.all[n];
            if (next.broken) continue;
            if (single || next.kind != HandStroke::Kind::single) return n;
        }
        return std::nullopt;
    }

    Seconds length_of(std::size_t i) const {
        if (strokes_.all[i].kind == HandStroke::Kind::dead) return dead_length;
        Seconds end(1e9);
        if (const auto next = next_of(i)) {
            const bool muted = strokes_.all[*next].kind == HandStroke::Kind::dead;
            end = on(*next) + (muted ? Seconds(0) : habits_.overlap);
        }
        const auto cut = std::upper_bound(cuts_.begin(), cuts_.end(), on(i) + shortest);
        if (cut != cuts_.end()) end = std::min(end, *cut);
        const Seconds length = end - on(i);
        if (habits_.staccato == 0 || strokes_.all[i].held) return std::max(length, shortest);
        return std::max(std::min(length, road_.beat_at(script_[i].at) * habits_.staccato),
                        shortest);
    }

    const Road& road_;
    const Habits& habits_;
    const Strokes& strokes_;
    Chance& chance_;
    Seconds per_string_{0.003};
    Seconds own_{0};
    std::vector<Seconds> cuts_ = strokes_.cuts;
    std::vector<ScriptedStrum> script_;
};

}  // namespace

std::vector<ScriptedStrum> rung(const Road& road, const Habits& habits, const Strokes& strokes,
                                Chance& chance) {
    return RingTimes(road, habits, strokes, chance).play();
}

}  // namespace compline::simulate
