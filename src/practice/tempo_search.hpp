#pragma once

#include "rough_fit.hpp"

#include <cstddef>
#include <vector>

namespace compline::practice {

/// Finds by how much a take is slower or faster than it should be, within 8 % and a little: by its
/// beginning first, and then by more and more of it, the step being finer each time, so that at its
/// end nobody is further off than a part of a beat.
class TempoSearch {
  public:
    /// Both must outlive it.
    TempoSearch(const RoughFit& fit, const std::vector<RoughStrum>& strums, time::Seconds beat);

    /// So many times as fast. 1 without strums.
    [[nodiscard]] double faster();

  private:
    struct Tried {
        double faster = 1;
        double fit = 0;
    };

    void look_at(std::size_t strums);
    [[nodiscard]] Tried tried(double faster) const;
    [[nodiscard]] std::vector<Tried> best_of(std::vector<Tried> all) const;
    [[nodiscard]] std::vector<Tried> around(const std::vector<Tried>& tempi, double reach) const;

    const RoughFit& fit_;
    const std::vector<RoughStrum>& strums_;
    time::Seconds beat_;
    std::size_t looked_at_ = 0;  ///< strums, from the first on
    double step_ = 1;
};

}  // namespace compline::practice
