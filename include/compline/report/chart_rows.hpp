#pragma once

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

namespace compline::report {

// A passage as a lead sheet shows it, for a terminal:
//
//     A | F7              | B♭7             | F7              | Cm7     F7      |
//
// Rows of up to four bars. A rehearsal letter begins a row; the letter stands before each of its
// rows. Chords stand at their beats, N.C. where nobody plays; a bar that repeats the one chord of
// the bar before it is a %, but never at the beginning of a row: the player does not look back.

/// A bar of a row. Columns count from 0 at the row's left edge.
struct RowBar {
    int number = 1;          ///< in the unrolled form
    std::string text;        ///< what stands between its bar lines, padded with blanks
    int column = 0;          ///< where `text` begins
    int width = 0;           ///< columns of `text`
    std::vector<int> beats;  ///< the column of each beat, ascending
};

struct ChartRow {
    std::string letter;  ///< rehearsal letter, padded with blanks up to the first bar line
    std::vector<RowBar> bars;
    [[nodiscard]] std::string text() const;
    /// Without its letter and bar lines, to stand below the row that has them.
    [[nodiscard]] std::string text_alone() const;
};

struct ChartRows {
    chart::Passage passage;
    int bars_per_row = 4;  ///< at most; 4, 2 or 1
    int columns = 80;      ///< no row is wider
    std::vector<ChartRow> rows;

    /// The row in which a bar of the passage stands (asserted), from 0.
    [[nodiscard]] std::size_t row_of(int bar) const;
};

inline constexpr int widest_rows = 80;
inline constexpr int narrowest_rows = 30;

/// Lays out a passage of a form in `columns` (taken as 30 to 80 where it is outside of that). Four
/// bars a row where every row then fits, else two, else one. The bars of a row have one width and
/// even beats where that fits; else a bar with many or long symbols takes more. Symbols that are
/// too long for a row of one bar end in "…" (four of six columns each, on 30). A section's name
/// beyond eight columns does too.
///
/// With another form of the same bars and beats, as that in another key is, the rows have room for
/// its chords too: rows of the one and rows of the other stand below each other, beat by beat.
[[nodiscard]] ChartRows chart_rows(const chart::Form& form, chart::Passage passage,
                                   int columns = widest_rows,
                                   const chart::Form* room_for = nullptr);

}  // namespace compline::report
