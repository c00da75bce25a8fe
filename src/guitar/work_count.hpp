#pragma once

#include <compline/guitar/planning.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace compline::guitar {

/// What planning has kept and compared so far, held to its bounds. Says only that it is too much:
/// what to ask less of is known to who was asked.
class WorkCount {
  public:
    struct Beyond {};  ///< thrown

    explicit WorkCount(const PlanningBounds& bounds) : bounds_(bounds) {}

    void keep(std::int64_t bytes) {
        bytes_ += bytes;
        if (bytes_ > bounds_.grips * bytes_a_grip) throw Beyond();
    }
    /// What is to be done at least; before it is begun.
    void expect(std::int64_t searches) {
        usual_ = searches * 3;  // found by counting
        if (searches > bounds_.searches) throw Beyond();
    }
    /// Inline: it is said millions of times.
    void search() { ++searches_; }
    /// A stop of a walk is done.
    void step() {
        searches_ += searches_a_step;
        if (searches_ > bounds_.searches) throw Beyond();
        tell(usual_ + std::min(searches_, usual_), 2 * usual_);
    }
    /// The grips of so many chords are found: about half of the work.
    void found(std::size_t chords, std::size_t all) const {
        tell(static_cast<std::int64_t>(chords), static_cast<std::int64_t>(2 * all));
    }

    static constexpr std::int64_t bytes_a_grip = 62;  ///< as Candidates keep it

  private:
    void tell(std::int64_t done, std::int64_t all) const {
        if (bounds_.progress) bounds_.progress(done, all);
    }

    static constexpr std::int64_t searches_a_step = 100;  ///< what it costs to begin one

    PlanningBounds bounds_;
    std::int64_t bytes_ = 0;
    std::int64_t searches_ = 0;
    std::int64_t usual_ = 1;
};

}  // namespace compline::guitar
