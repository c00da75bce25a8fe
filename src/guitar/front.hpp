#pragma once

#include "candidates.hpp"
#include "finger_table.hpp"

#include <array>
#include <bitset>
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
/// are kept as a tree (hand, then finger by finger), each branch with its least cost, so that
/// looking for the best way to another grip leaves most of them unseen: what the fingers so far
/// cost, and the least that lies beyond, is more than what is known already.
class Front {
  public:
    /// `known`: one an id (ids ascending). Only those below the limit take part.
    Front(const FingerTable& table, const Candidates& candidates,
          const std::vector<std::uint32_t>& ids, const std::vector<Known>& known,
          Cost limit = never);

    [[nodiscard]] bool empty() const { return leaves_.empty(); }

  private:
    friend class FrontSearch;

    static constexpr std::size_t depth = 5;  // hand, four fingers
    struct Branch {
        std::uint16_t key = 0;    // the hand's fret, or a finger's place
        std::uint32_t first = 0;  // of the branches, or leaves, that grow from it
        std::uint32_t end = 0;
        Cost least = never;  // scaled, as are the leaves' costs
    };
    struct Leaf {
        std::uint32_t id = 0;
        Cost cost = 0;  // and 1 where it is not exact: of equals the exact one is less
        std::uint16_t thumb = 0;
        std::uint8_t strings = 0;
        std::uint8_t top = 0;
    };
    struct SameForm {  // a grip that may slide as it is
        std::uint64_t form = 0;
        std::uint32_t leaf = 0;
    };

    void add(std::uint32_t id, const Known& known);

    const FingerTable* table_;
    const Candidates* candidates_;
    std::array<std::vector<Branch>, depth> branches_;
    std::array<std::uint16_t, depth> path_{};  // to the last leaf
    std::vector<Leaf> leaves_;
    std::vector<SameForm> forms_;  // ascending
    std::bitset<1024> has_form_;   // by what is left of a form divided by so many: perhaps, or no
};

/// Looks for the least that it costs to reach one grip after another from a front (or, backward, to
/// reach the front from each of them): the cost there and the move's.
class FrontSearch {
  public:
    FrontSearch(const Front& front, int haste, Direction direction);

    /// `never` where it does not cost less than the limit.
    [[nodiscard]] Known find(const PackedGrip& grip, Cost limit = never);
    /// The grip of the front through which that was found.
    [[nodiscard]] std::uint32_t found() const { return front_.leaves_[found_].id; }

  private:
    void look_round();
    void try_leaf(std::uint32_t leaf);
    void take(std::uint32_t leaf, Cost cost);
    void slide_whole_grips();
    template <std::size_t level>
    void climb(const Front::Branch& branch, Cost so_far);

    static constexpr std::size_t masks = 1U << static_cast<unsigned>(most_strings);
    static constexpr std::size_t notes = 128;
    static constexpr std::size_t most_shift = 64;

    const Front& front_;
    int haste_;
    Direction direction_;
    std::array<Cost, masks> strings_{};
    std::array<Cost, notes> top_{};
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
