#pragma once

#include <compline/harmony/chord.hpp>

#include <array>
#include <cstdint>
#include <optional>

namespace compline::band {

/// A set of pitch classes.
class PitchClasses {
  public:
    [[nodiscard]] constexpr bool has(int pitch_class) const {
        return ((bits_ >> pitch_class) & 1U) != 0;
    }
    constexpr void insert(int pitch_class) {
        bits_ = static_cast<std::uint16_t>(bits_ | (1U << pitch_class));
    }

  private:
    std::uint16_t bits_ = 0;
};

/// How often each pitch class sounds in the chords around: the key, as far as one can tell.
using Surroundings = std::array<int, 12>;

/// What a bass player thinks of when a chord is named, as pitch classes.
struct BassTones {
    explicit BassTones(const harmony::Chord& chord);

    int root;
    int bass;                  ///< the root, or what the slash asks for
    std::optional<int> third;  ///< the second or fourth of a sus chord
    /// Its own: flat in a half-diminished chord, sharp in an augmented one, the flat one of two; of
    /// an altered dominant the sharp eleventh. None where it is left out.
    std::optional<int> fifth;
    PitchClasses chord;  ///< bass, root, third, fifth, sixth or seventh: what a line rests on
    PitchClasses named;  ///< those and the tensions in the symbol
    PitchClasses contradicted;  ///< what would make another chord of it

    /// The chord's scale: the tones named, and steps of a semitone or a whole tone between them.
    /// Which of two steps it is, the chords around say, but never against the symbol; where they
    /// say nothing, the usual scale does (natural ninth, eleventh and thirteenth; common practice,
    /// no source).
    [[nodiscard]] PitchClasses scale(const Surroundings& around) const;
};

}  // namespace compline::band
