#pragma once

#include "target.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::assess {

// Where a player may be who is lost: the chart, moved. By a change; by two beats, a bar, two bars;
// at the same place of another section.

class Shifts {
  public:
    Shifts(const Targets& targets, const roadmap::RoadMap& map);

    /// Number of ways to be elsewhere; 0 is the chart as it stands.
    [[nodiscard]] std::size_t count() const { return meant_.size(); }
    /// The target that is meant where `target` is due; none: nothing is there.
    [[nodiscard]] std::optional<std::size_t> meant(std::size_t shift, std::size_t target) const {
        return meant_[shift][target];
    }

  private:
    using Meant = std::vector<std::optional<std::size_t>>;

    [[nodiscard]] std::optional<std::size_t> at(time::Ticks position) const;
    void by_changes(int n);
    template <typename Distance>
    void by(Distance distance);
    void to_section(std::size_t section);
    void add(Meant meant);

    const Targets& targets_;
    const roadmap::RoadMap& map_;
    std::vector<Meant> meant_;
};

}  // namespace compline::assess
