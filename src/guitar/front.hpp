#pragma once

#include "candidates.hpp"
#include "finger_table.hpp"

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

namespace compline::guitar {

/// No way leads there.
inline constexpr Cost never = std::numeric_limits<Cost>::max() / 32;

enum class Direction { forward, backward };

/// What is known of the best way to a grip: what it costs, or that it costs no less than this.
struct Known {
    Cost cost = never;
    bool exact = true;
};

/// What the best way to each grip of a stop costs: the state of a walk along the ring. The grips
/// are kept as a tree (hand, then index and middle, then ring and little), each branch with its
/// least cost, so that looking for the best way to another grip leaves most of them unseen: what
/// the fingers so far cost, and the least that lies beyond, is more than what is known already. Two
/// fingers a level: with one, the branches are so few at each fork that taking them costs more.
class Front {
  public:
    /// `known`: one an id (ids ascending). Only those below the limit take part.
    Front(const FingerTable& table, const Candidates& candidates,
          const std::vector<std::uint32_t>& ids, const std::vector<Known>& known,
          Cost limit = never);

    [[nodiscard]] bool empty() const { return leaves_.empty(); }

  private:
    friend class FrontSearch;

    static constexpr std::size_t depth = 3;
    using BranchKey = std::array<std::uint16_t, 2>;  // the hand's fret, or two fingers' places
    struct Branch {
        BranchKey key{};
        std::uint32_t first = 0;  // of the branches, or leaves, that grow from it
        std::uint32_t end = 0;
        Cost least = never;  // scaled, as are the leaves' costs
    };
    struct Leaf {
        std::uint64_t form = 0;
        std::uint32_t id = 0;
        Cost cost = 0;  // and 1 where it is not exact: of equals the exact one is less
        std::array<std::uint16_t, PackedGrip::fingers> place{};
        std::int8_t hand = 0;
        std::uint8_t strings = 0;
        Voices voices{};
    };

    static constexpr unsigned bucket_bits = 10;
    static constexpr std::uint32_t none = 0xFFFFFFFFU;

    [[nodiscard]] static std::size_t bucket_of(std::uint64_t form);

    void add(std::uint32_t id, const Known& known);
    void sort_siblings();
    void link_forms();

    const FingerTable* table_;
    const Candidates* candidates_;
    std::array<std::vector<Branch>, depth> branches_;
    std::array<BranchKey, depth> path_{};  // to the last leaf
    Cost least_ = never;                   // scaled, of all leaves
    std::vector<Leaf> leaves_;
    // Leaves by form, for grips that slide as they are: for each bucket the first leaf, for each
    // leaf the next one.
    std::array<std::uint32_t, std::size_t{1} << bucket_bits> first_of_form_{};
    std::vector<std::uint32_t> next_of_form_;
};

/// Looks for the least that it costs to reach one grip after another from a front (or, backward, to
/// reach the front from each of them): the cost there and the move's.
class FrontSearch {
  public:
    FrontSearch(const Front& front, const WayIn& way_in, Direction direction);

    /// `never` where it does not cost less than the limit.
    [[nodiscard]] Known find(const PackedGrip& grip, Cost limit = never);
    /// The grip of the front through which that was found.
    [[nodiscard]] std::uint32_t found() const { return front_.leaves_[found_].id; }

  private:
    void look_round();
    void try_leaf(std::uint32_t leaf);
    void try_leaf(std::uint32_t leaf, Cost fingers, Cost unguided);
    void take(std::uint32_t leaf, Cost cost);
    void slide_whole_grips();
    [[nodiscard]] Cost voices_cost(const Front::Leaf& leaf) const;
    template <std::size_t level>
    void climb(const Front::Branch& branch, Cost so_far);

    static constexpr std::size_t most_shift = 64;

    const Front& front_;
    WayIn way_in_;
    Direction direction_;

    std::array<Cost, most_shift> guided_{};
    std::array<Cost, most_shift> unguided_{};  // what it costs more
    std::array<Cost, most_shift> least_{};     // by hand: no shift there costs less

    const PackedGrip* grip_ = nullptr;
    std::array<const std::int16_t*, PackedGrip::fingers> rows_{};
    Cost unguided_here_ = 0;
    Cost best_ = never;
    std::uint32_t found_ = 0;
};

}  // namespace compline::guitar
