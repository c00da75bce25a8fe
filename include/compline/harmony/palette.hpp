#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/harmony/pitch.hpp>

#include <array>
#include <bitset>
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
};

/// A set of pitch classes.
using PitchClasses = std::bitset<12>;

/// The tones a comper may play on one chord in its place in a tune, and those that make it that
/// chord. Root and plain fifth are always optional: the bass has the root.
///
/// Source of the rules: common practice, no source; the rows are in quality.cpp, the surroundings
/// in palette.cpp.
class Palette {
  public:
    Palette(const Chord& chord, const Surroundings& around, Strictness strictness);

    [[nodiscard]] const Chord& chord() const { return chord_; }

    /// Those of `sounding` that are accepted on this chord. On a dominant of two beats or more the
    /// fourth is accepted as long as the third does not sound with it (sus or ii7 before the
    /// third).
    [[nodiscard]] PitchClasses accepted(const PitchClasses& sounding) const;

    /// Those of `sounding` that are not accepted.
    [[nodiscard]] PitchClasses foreign(const PitchClasses& sounding) const {
        return sounding & ~accepted(sounding);
    }

    /// Of the accepted: thirds, fourths, sixths, sevenths and altered fifths, the tones that tell a
    /// chord from its neighbours.
    [[nodiscard]] PitchClasses telling() const { return telling_; }

    /// Defining tones (and in `written` the written tensions) that do not sound. Empty: complete.
    [[nodiscard]] std::vector<Degree> missing(const PitchClasses& sounding) const;

    /// In `written` a slash bass must be the lowest note; nothing where any bass will do.
    [[nodiscard]] std::optional<int> required_bass() const;

    /// The name of any pitch class as this chord spells it: C♯ on Dm7 (its major seventh).
    [[nodiscard]] Spelling name(int pitch_class) const;

  private:
    /// A demand that any one of its degrees meets: {7, 6} for a maj7.
    using Demand = std::vector<Degree>;

    void accept(const Degree& degree);
    void accept(std::string_view column);
    void refuse(const Degree& degree);
    void demand(const Demand& demand) { demands_.push_back(demand); }
    void add_written_tones(Strictness strictness);
    void add_working(const Surroundings& around);
    void add_dominant_tensions(const Surroundings& around);
    void add_substitutions();
    void exclude_neighbours();
    [[nodiscard]] bool written(const Degree& degree) const;

    Chord chord_;
    PitchClasses accepted_;  ///< above the root: bit 0 is the root
    PitchClasses telling_;   ///< absolute, as the public functions are
    bool fourth_before_third_ = false;
    bool bass_lowest_ = false;
    std::vector<Demand> demands_;
    std::size_t enough_ = 0;  ///< how many demands must be met
};

}  // namespace compline::harmony
