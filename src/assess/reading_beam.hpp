#pragma once

#include "entry_times.hpp"
#include "player.hpp"
#include "target.hpp"

#include <compline/assess/read_as.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace compline::assess {

/// One way to read a take up to a strum.
struct PartialReading {
    static constexpr int nothing_yet = -1;

    double nats = 0;
    int chord = nothing_yet;  ///< the last change that has landed
    std::uint32_t shift = 0;  ///< where in the form the player believes to be
    std::int32_t before = -1;
    std::uint32_t unit = 0;  ///< what was read last
    ReadAs how = ReadAs::landing;

    /// The first change that has not landed.
    [[nodiscard]] std::size_t next() const {
        return static_cast<std::size_t>(std::int64_t{chord} + 1);
    }
};

/// The likely ways to read a take, after each of its strums: one for each chord in hand, and none
/// without hope.
class ReadingBeam {
  public:
    using Nodes = std::vector<std::int32_t>;

    /// Both must outlive it. strums: how many were played.
    ReadingBeam(const Targets& targets, const Player& player, std::size_t strums);

    [[nodiscard]] std::size_t strums() const { return ends_.size() - 1; }
    [[nodiscard]] const PartialReading& node(std::int32_t n) const {
        return nodes_[static_cast<std::size_t>(n)];
    }
    /// The likely ones that have read so many strums. first_open: targets before it are over.
    [[nodiscard]] const Nodes& likely(std::size_t strums, std::size_t first_open);
    /// One that has read so many strums.
    void add(std::size_t strums, const PartialReading& node);

    /// Nats of a target that is played, and of those from one to before another that are not; 0
    /// where there is none between them.
    [[nodiscard]] double played(std::size_t target) const;
    [[nodiscard]] double left_out(std::size_t from, std::size_t to) const;

    /// The nodes of the most likely reading, first strum first.
    [[nodiscard]] std::vector<PartialReading> best(std::size_t first_open);
    /// How many nodes of it all readings that are left agree on; after best().
    [[nodiscard]] std::size_t agreed() const;
    /// So many targets stand whatever is played from `now` on; after best().
    [[nodiscard]] std::size_t settled(const std::vector<PartialReading>& best,
                                      const EntryTimes& times, time::Seconds now) const;

  private:
    [[nodiscard]] std::int32_t likeliest() const;
    [[nodiscard]] double at_end(std::int32_t n) const;
    [[nodiscard]] double standing(std::int32_t n, std::size_t first_open) const;

    const Targets& targets_;
    double left_out_;                   ///< nats of a change that is not struck,
    double played_;                     ///< and of one that is
    std::vector<int> optional_before_;  ///< how many targets before each may be left out
    std::vector<PartialReading> nodes_;
    std::vector<Nodes> ends_;  ///< nodes that have read so many strums
};

}  // namespace compline::assess
