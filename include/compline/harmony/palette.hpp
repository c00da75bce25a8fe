#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/harmony/pitch.hpp>
#include <compline/harmony/quality.hpp>

#include <bitset>
#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::harmony {

/// How literally a chart is taken.
enum class Strictness {
    written,        ///< what stands there: defining tones and tensions, root and fifth
    working,        ///< what a working comper plays for it (the default)
    substitutions,  ///< also tritone substitutes and other stand-ins
};
[[nodiscard]] std::string_view name_of(Strictness strictness);
[[nodiscard]] std::optional<Strictness> read_strictness(std::string_view name);

/// What the tune around a chord makes of it.
struct Surroundings {
    bool falls = false;        ///< a dominant whose next root lies a fifth or a semitone below
    bool tonic_minor = false;  ///< the minor chord on the key's own tonic, in a minor key
    bool blues = false;        ///< the I7 or IV7 of a blues
    bool two_beats = false;    ///< lasts two beats or more
    bool subdominant = false;  ///< on the fourth degree, in a major key
    bool into_minor = false;   ///< a dominant whose next root lies a fifth below, of a minor chord
    auto operator<=>(const Surroundings&) const = default;
};

/// Where a comper may play a tone that the symbol does not ask for.
enum class Ground {
    working,        ///< anywhere, for a working comper
    falls,          ///< a dominant whose next root lies a fifth or a semitone below
    blues,          ///< the I7 or IV7 of a blues
    two_beats,      ///< a dominant of two beats or more, until its third sounds
    tonic_minor,    ///< the minor chord on the key's own tonic
    subdominant,    ///< the major seventh on the fourth degree of a major key
    substitutions,  ///< only where stand-ins are welcome
};

/// Tones granted on one ground.
struct Grant {
    Ground ground;
    std::vector<OptionalTone> options;
};

/// All that a comper may play on a chord beyond its own tones, ground by ground, in the order of
/// Ground; what the symbol contradicts is left out.
[[nodiscard]] std::vector<Grant> grants(const Chord& chord);

/// A set of pitch classes.
using PitchClasses = std::bitset<12>;

/// The tones a comper may play on one chord in its place in a tune, and those that make it that
/// chord. Root and plain fifth are always optional: the bass has the root.
///
/// Source of the rules: common practice, no source; the rows are in quality.cpp, the grants in
/// grants.cpp.
class Palette {
  public:
    Palette(const Chord& chord, const Surroundings& around, Strictness strictness);

    [[nodiscard]] const Chord& chord() const { return chord_; }

    /// Those of `sounding` that are accepted on this chord, some only beside others (OptionalTone):
    /// on a dominant of two beats or more the fourth as long as the third does not sound with it
    /// (sus or ii7 before the third).
    [[nodiscard]] PitchClasses accepted(const PitchClasses& sounding) const;

    /// Those of `sounding` that are not accepted.
    [[nodiscard]] PitchClasses foreign(const PitchClasses& sounding) const {
        return sounding & ~accepted(sounding);
    }

    /// Of the accepted: thirds, fourths, sixths, sevenths and altered fifths, the tones that tell a
    /// chord from its neighbours.
    [[nodiscard]] PitchClasses telling() const { return telling_; }

    /// Defining tones (and in `written` the written tensions) that do not sound. Empty: complete,
    /// also as the sus that a slash chord may be.
    [[nodiscard]] std::vector<Degree> missing(const PitchClasses& sounding) const;

    /// How many of them it takes to make the chord complete: of a diminished seventh, any three of
    /// whose tones will do, fewer than are missing.
    [[nodiscard]] std::size_t short_of(const PitchClasses& sounding) const;

    /// In `written` a slash bass must be the lowest note; nothing where any bass will do.
    [[nodiscard]] std::optional<int> required_bass() const;

    /// The name of any pitch class as this chord spells it: C♯ on Dm7 (its major seventh).
    [[nodiscard]] Spelling name(int pitch_class) const;

  private:
    /// What may sound only beside other tones; above the root, as accepted_ is.
    struct Proviso {
        PitchClasses tone;
        PitchClasses never_with;
        PitchClasses beside{};     ///< of these ...
        std::size_t at_least = 0;  ///< ... so many
        PitchClasses with{};       ///< all of these
    };

    [[nodiscard]] std::vector<Degree> unmet(const PitchClasses& sounding) const;
    void accept(const Degree& degree);
    void accept(const Grant& grant);
    void accept(const OptionalTone& option);
    void accept_as(const Chord& sus);

    Chord chord_;
    PitchClasses accepted_;  ///< above the root: bit 0 is the root
    PitchClasses telling_;   ///< absolute, as the public functions are
    std::vector<Proviso> provisos_;
    std::optional<PitchClasses> sus_;  ///< its fourth and seventh are enough
    bool bass_lowest_ = false;
    std::vector<Demand> demands_;
    std::size_t enough_ = 0;  ///< how many demands must be met
};

}  // namespace compline::harmony
