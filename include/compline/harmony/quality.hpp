#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/harmony/pitch.hpp>

#include <span>
#include <string_view>
#include <vector>

namespace compline::harmony {

// The table a musician would write: one row a quality, degrees as they are said aloud. Everything
// the judge accepts or misses starts here; what depends on the tune around the chord (a dominant
// that falls a fifth, a tonic minor, a blues) is added in palette.hpp.
//
// Common practice, no source, unless a comment beside the row says otherwise.

struct QualityRow {
    Quality quality;
    std::string_view symbol;     ///< canonical printing, in letters
    std::string_view spellings;  ///< other ways to write it, blank between; "♭" as b, "♯" as #
    std::string_view tones;      ///< the chord as written, root first
    std::string_view defining;   ///< must sound
    int of_defining;             ///< how many of them are enough; 0: all
    std::string_view written;    ///< written tensions: must sound in `written`, optional otherwise
    std::string_view working;    ///< accepted besides, in `working`
    std::string_view substitutions;  ///< accepted besides, in `substitutions`
};

/// All rows, in the order of Quality.
[[nodiscard]] std::span<const QualityRow> quality_table();
[[nodiscard]] const QualityRow& row_of(Quality quality);

/// Degrees of a row's column: "1 b3 5 b7".
[[nodiscard]] std::vector<Degree> read_degrees(std::string_view column);

/// The tones of a chord as written, root first: degrees above its root. A slash bass that is none
/// of them is not among them.
[[nodiscard]] std::vector<Degree> chord_tones(const Chord& chord);

/// A dominant: major third (or a suspended fourth) and a minor seventh.
[[nodiscard]] bool is_dominant(Quality quality);
/// A minor third and a perfect fifth.
[[nodiscard]] bool is_minor(Quality quality);

}  // namespace compline::harmony
