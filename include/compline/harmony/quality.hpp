#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/harmony/pitch.hpp>

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace compline::harmony {

// The tables a musician would write: one row a quality, one row an alteration, degrees as they are
// said aloud. Everything the judge accepts or misses starts here; what depends on the tune around
// the chord (a dominant that falls a fifth, a tonic minor, a blues) is in grants.cpp.
//
// In the columns, `b9|#9` is either of the two, `6?` is demanded only where a chart is taken as
// written, and `6=7` is a sixth that stands in for the seventh. What may sound only beside some of
// the chord: `b13-5` not with the fifth, `3^4` above the fourth, `9*` see OptionalTone::colour.
//
// Common practice, no source, unless a comment beside the row says otherwise. Tones and spelling
// are compared with those of tonal (npm) in the tests.

struct QualityRow {
    Quality quality;
    std::string_view symbol;         ///< canonical printing, in letters
    std::string_view tones;          ///< the chord as written, root first
    std::string_view defining;       ///< must sound
    int of_defining;                 ///< how many of them are enough; 0: all
    std::string_view written;        ///< tensions that must sound in `written` only
    std::string_view working;        ///< accepted besides, in `working`
    std::string_view substitutions;  ///< accepted besides, in `substitutions`
    std::string_view contradicted;   ///< never accepted: it would make another chord of it
};

struct AlterationRow {
    Alteration alteration;
    std::string_view symbol;        ///< canonical printing after a seventh: "b9", "add9", "(no3)"
    std::string_view tone;          ///< what comes in; empty where something is left out
    std::string_view replaces;      ///< what goes out
    std::string_view contradicted;  ///< never accepted beside it, unless written too
};

/// All rows, in the order of Quality and of Alteration.
[[nodiscard]] std::span<const QualityRow> quality_table();
[[nodiscard]] const QualityRow& row_of(Quality quality);
[[nodiscard]] std::span<const AlterationRow> alteration_table();

/// Degrees of a column without marks: "1 b3 5 b7".
[[nodiscard]] std::vector<Degree> read_degrees(std::string_view column);

/// A demand that any one of its degrees meets.
using Demand = std::vector<Degree>;

/// A tone that may sound, the defining tone that it stands in for, if any, and beside what.
struct OptionalTone {
    Degree degree;
    std::optional<Degree> instead_of{};
    std::optional<Degree> never_with{};  ///< not while this one sounds
    std::optional<Degree>
        above{};  ///< only over this one. A palette knows no octaves: it must sound
    /// A whole step above a tone of a diminished seventh, while three of its own tones sound, the
    /// one a semitone above the colour among them: without that one it is a dominant seventh on the
    /// colour (B♭ D F A♭ for Bdim7).
    bool colour = false;
    bool operator==(const OptionalTone&) const = default;

    /// May sound whatever else does.
    [[nodiscard]] bool is_free() const { return !never_with && !above && !colour; }
};
[[nodiscard]] std::vector<OptionalTone> read_options(std::string_view column);

/// The tones of a chord as written, root first, altered tones in the place of what they replace,
/// added ones last: degrees above its root. A slash bass that is none of them is not among them.
[[nodiscard]] std::vector<Degree> chord_tones(const Chord& chord);

/// What a slash chord is over a bass that makes a sus of it: F/G, Fmaj7/G and Dm7/G are G9sus4.
[[nodiscard]] std::optional<Chord> sus_reading(const Chord& chord);

/// What must sound for it to be this chord. `strictly`: as written, tensions too.
[[nodiscard]] std::vector<Demand> defining_tones(const Chord& chord, bool strictly = false);

/// What would make another chord of it: the plain ninth of a C7b9, the ♭9 of a C9.
[[nodiscard]] std::vector<Degree> contradicted_tones(const Chord& chord);

/// A dominant: a minor seventh over a major third, or over a suspended second or fourth.
[[nodiscard]] bool is_dominant(const Chord& chord);
/// Where a fourth stands for the third, as in sus chords; an eleventh chord is played so too.
[[nodiscard]] bool is_suspended(const Chord& chord);
/// A minor third and a perfect fifth.
[[nodiscard]] bool is_minor(const Chord& chord);

}  // namespace compline::harmony
