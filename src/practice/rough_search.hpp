#pragma once

#include "rough_fit.hpp"

#include <compline/practice/report.hpp>

#include <optional>
#include <vector>

namespace compline::practice {

/// Something else that a take may have been played to, and how well it fits at a glance.
struct Guess {
    HintKind kind = HintKind::offset;
    Moved moved;
    double fit = 0;     ///< tones, and half as much time
    double likely = 0;  ///< beside the share of changes that are right by it, with which it goes
};

/// Tries what a take may have been played to: strums of it, beside a chart.
class RoughSearch {
  public:
    /// Both must outlive it. beat: of the music; bar: how long the first one lasts.
    RoughSearch(const RoughFit& fit, const std::vector<RoughStrum>& strums, time::Seconds beat,
                time::Seconds bar);

    [[nodiscard]] double as_it_is() const { return fit_of({}); }
    /// How near the strums are to beats and off-beats, a little behind or ahead of them allowed.
    [[nodiscard]] double in_time(Moved moved = {}) const;

    /// Where tones lead to, in whole bars if they may, and what puts strums on beats and off-beats
    /// beside it.
    [[nodiscard]] std::vector<Guess> other_starts() const;
    [[nodiscard]] Guess another_key() const;
    [[nodiscard]] Guess half_or_double() const;
    /// 2 to 8 % and a little beyond; none that is nearer.
    [[nodiscard]] std::optional<Guess> slower_or_faster() const;

  private:
    [[nodiscard]] double fit_of(const Moved& moved) const;
    [[nodiscard]] double likely(const Moved& moved) const;
    [[nodiscard]] double tones_at(time::Seconds later) const;
    [[nodiscard]] time::Seconds start_in_bars() const;
    [[nodiscard]] time::Seconds start_by_tones() const;
    [[nodiscard]] std::vector<time::Seconds> in_time_near(time::Seconds start) const;

    const RoughFit& fit_;
    const std::vector<RoughStrum>& all_;
    std::vector<RoughStrum> some_;  ///< enough of them, from all over the take
    time::Seconds beat_;
    time::Seconds bar_;
};

}  // namespace compline::practice
