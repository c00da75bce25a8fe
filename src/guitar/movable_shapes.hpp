#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/shape.hpp>
#include <compline/guitar/voicing_plan.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace compline::guitar {

/// Pitch classes as bits: 0 is C.
using ToneBits = std::uint16_t;

/// What a shape is wherever on the neck it is held: its strings, open or so many frets above the
/// lowest that is held. Which tones it gives at a fret is a few steps of arithmetic, so that a
/// chord finds its shapes without walking over the neck.
struct MovableShape {
    static constexpr std::int8_t muted = -2;
    static constexpr std::int8_t open = -1;

    std::array<std::int8_t, most_strings> above{};  ///< by string from 1 on
    std::int8_t notes = 0;
    std::int8_t span = 0;  ///< frets from the lowest to the highest
    bool all_open = true;  ///< nothing is held; such a shape lies nowhere but at the nut
    ToneBits open_tones = 0;
    ToneBits held_tones = 0;  ///< with the lowest fret at the nut

    /// How far above the lowest that is held; `muted` or `open`.
    [[nodiscard]] int on(int string) const { return above[static_cast<std::size_t>(string - 1)]; }
    [[nodiscard]] Shape shape(int strings, int lowest) const;
};

/// Forms that give the same tones wherever they lie, together: a chord asks once for all of them.
class MovableShapesByTones {
  public:
    struct Group {
        ToneBits open = 0;
        ToneBits held = 0;  ///< with the lowest fret at the nut
        std::vector<MovableShape> shapes;

        /// With the lowest fret that is held at `lowest`.
        [[nodiscard]] ToneBits tones(int lowest) const {
            const auto up = static_cast<unsigned>(lowest) % 12U;
            const auto low = static_cast<unsigned>(held);
            return static_cast<ToneBits>(open | (((low << up) | (low >> (12U - up))) & 0xFFFU));
        }
    };

    explicit MovableShapesByTones(const std::vector<MovableShape>& shapes);

    [[nodiscard]] const std::vector<Group>& held() const { return held_; }
    [[nodiscard]] const std::vector<Group>& all_open() const { return all_open_; }

  private:
    std::vector<Group> held_;
    std::vector<Group> all_open_;
};

/// All shapes of two to five notes that a right hand can strike, on the strings wished for.
[[nodiscard]] std::vector<MovableShape> movable_shapes_on(const Fretboard& fretboard,
                                                          const VoicingWishes& wishes);

}  // namespace compline::guitar
