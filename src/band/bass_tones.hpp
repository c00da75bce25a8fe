#pragma once

#include <compline/harmony/chord.hpp>

#include <array>
#include <cstdint>
#include <optional>

namespace compline::band {

/// A set of pitch classes.
class PitchClassSet {
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
using KeyProfile = std::array<int, 12>;

/// What a bass player thinks of when a chord is named, as pitch classes.
struct BassTones {
    explicit BassTones(const harmony::Chord& symbol);

    int root;
    int bass;                  ///< the root, or what the slash asks for
    std::optional<int> third;  ///< the second or fourth of a sus chord
    /// Its own: flat in a half-diminished chord, sharp in an augmented one, the flat one of two.
    /// None where it is left out, and in an altered dominant: its ♭5 is a colour, no place to rest.
    std::optional<int> fifth;
    PitchClassSet chord;  ///< bass, root, third, fifth, sixth or seventh: what a line rests on
    PitchClassSet named;  ///< those and the tensions in the symbol
    /// What would make another chord of it: at most a semitone from the next root, as it comes.
    PitchClassSet contradicted;
    /// Of those, what is no approach either: the third of a sus chord gives away what it holds
    /// back, and the natural fifth of a half-diminished or diminished one is its one wrong note.
    PitchClassSet never;
    /// The minor third of a dominant that does not name it, which makes it minor for as long as it
    /// sounds: it rises to the major third or to the next root and does nothing else.
    std::optional<int> blue_third;

    /// Neither against the chord nor its blue third: what a line may pass through.
    [[nodiscard]] bool passes(int pitch_class) const {
        return !contradicted.has(pitch_class) && !never.has(pitch_class) &&
               blue_third != pitch_class;
    }

    /// The chord's scale: the tones named, and steps of a semitone or a whole tone between them.
    /// Which of two steps it is, the chords around say, but nothing that the symbol speaks against;
    /// where they say nothing, the usual scale does (natural ninth, eleventh and thirteenth; common
    /// practice, no source).
    [[nodiscard]] PitchClassSet scale(const KeyProfile& around) const;

  private:
    /// The sixth of a major seventh is as good as its seventh: both colour a tonic.
    void rest_on_the_sixth();
    void find_what_is_never(const harmony::Chord& symbol);
    /// A whole tone above each tone of a diminished chord, never a semitone: that would be another
    /// chord's root. Nor the semitone below its root, which leads up: the line would go back to
    /// where it rose from (common practice, no source).
    void keep_to_the_diminished_scale();
};

}  // namespace compline::band
