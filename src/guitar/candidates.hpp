#pragma once

#include "fingering_book.hpp"
#include "movable_shapes.hpp"
#include "packed_grip.hpp"

#include <compline/guitar/voicing_plan.hpp>

#include <array>
#include <cstdint>
#include <memory>
#include <vector>

namespace compline::guitar {

/// Every grip that may stand for a chord, with what it costs in itself. In the order of hand, first
/// finger, second finger ..., so that grips that are alike lie together. Copies share the grips and
/// have costs of their own: a chord that comes in many places is found and kept once.
class Candidates {
  public:
    using Frets = std::array<std::int8_t, most_strings>;  ///< -1: muted; [0] is string 1
    using Fingers = std::array<Finger, most_strings>;

    explicit Candidates(int strings) : strings_(strings) {}

    void add(const Frets& frets, const Fingers& fingers, ToneBits tones, const PackedGrip& packed,
             Cost cost);
    /// Puts them in their order; nothing may be added afterwards.
    void sort();

    [[nodiscard]] std::size_t size() const { return costs_.size(); }
    [[nodiscard]] const PackedGrip& packed(std::uint32_t i) const { return grips_->packed[i]; }
    [[nodiscard]] Cost cost(std::uint32_t i) const { return costs_[i]; }
    [[nodiscard]] Grip grip(std::uint32_t i) const;
    [[nodiscard]] ToneBits tones(std::uint32_t i) const { return grips_->tones[i]; }
    /// The fret on a string; -1: muted.
    [[nodiscard]] int fret(std::uint32_t i, int string) const {
        return grips_->written[i].frets[static_cast<std::size_t>(string - 1)];
    }
    /// Makes a grip dearer in a place where it serves less well.
    void add_cost(std::uint32_t i, Cost more) { costs_[i] += more; }
    /// Equal for grips of the same shape, whatever the fingers.
    [[nodiscard]] std::uint64_t shape_key(std::uint32_t i) const;

  private:
    struct Written {
        Frets frets{};
        Fingers fingers{};
        auto operator<=>(const Written&) const = default;
    };
    struct Grips {
        std::vector<PackedGrip> packed;
        std::vector<ToneBits> tones;
        std::vector<Written> written;
    };
    int strings_;
    std::shared_ptr<Grips> grips_ = std::make_shared<Grips>();
    std::vector<Cost> costs_;
};

/// What a player's guitar and wishes make of chords.
class GripFinder {
  public:
    /// The references must outlive this object.
    GripFinder(const Fretboard& fretboard, const VoicingWishes& wishes);

    /// All playable grips of a chord in its place that are right to the judge and as wished.
    [[nodiscard]] Candidates find(const harmony::Palette& palette, const InPlace& place);

    /// The fingerings of a given shape: of what is wished only what makes one better than another.
    /// None when hands cannot hold it.
    [[nodiscard]] Candidates fingerings(const harmony::Palette& palette, const InPlace& place,
                                        const Shape& shape);

  private:
    const Fretboard& fretboard_;
    const VoicingWishes& wishes_;
    FingeringBook book_;
    FingeringBook any_hands_;
    MovableShapesByTones forms_;
};

/// Whether the judge would call a shape right for a chord: nothing foreign, nothing missing, enough
/// to be told apart from other chords.
[[nodiscard]] bool is_right(const Fretboard& fretboard, const Shape& shape,
                            const harmony::Palette& palette);

}  // namespace compline::guitar
