#pragma once

#include "as_written.hpp"
#include "diagram_svg.hpp"
#include "section_parts.hpp"

#include <compline/report/voicing_page.hpp>

#include <string>
#include <vector>

namespace compline::report {

// The page before it is drawn: which bars stand in which row, and where in it. Lengths in mm.

/// What stands at a place of a bar.
struct SheetChange {
    double at = 0;                                    ///< share of the bar before it, 0 to under 1
    std::string symbol;                               ///< in brackets where the chord goes on; N.C.
    const guitar::PlannedVoicing* voicing = nullptr;  ///< none: no diagram
    const guitar::Move* move = nullptr;
};

struct SheetBar {
    int number = 1;
    BarAsWritten written;  ///< its signs
    bool repeats = false;  ///< the one chord of the bar before: a simile mark, but not in front
    bool ends_section = false;
    bool ends_all = false;
    bool begins_meter = false;  ///< that is not the one before it, or not the heading's
    time::Meter meter{4};
    std::vector<double> kicks;  ///< shares of the bar
    bool held = false;          ///< a fermata over its last chord
    std::vector<SheetChange> changes;
};

struct PlacedBar {
    const SheetBar* bar = nullptr;
    double x = 0;
    double width = 0;
    bool simile = false;
    std::vector<double> xs;  ///< of each change's left edge, from the page's left edge
};

/// Words, a sign or a bracket over a row.
struct OverRow {
    enum class Kind { words, segno, to_coda, ending };
    Kind kind = Kind::words;
    std::string text;
    double x = 0;         ///< where it begins, or ends
    double to = 0;        ///< of an ending's bracket
    bool at_end = false;  ///< it ends at `x`
    int line = 0;         ///< from the lowest up
};

/// Bars of one section side by side; or words in place of a section that was drawn already.
struct SheetRow {
    std::string letter;  ///< where a section begins
    std::string words;
    std::vector<PlacedBar> bars;
    std::vector<OverRow> over;
    int lines = 0;           ///< over it
    bool has_marks = false;  ///< accents or fermatas
    bool begins_coda = false;
    bool goes_on = false;  ///< the repeat or ending that it is in ends in a later row
    bool has_diagrams = true;
    double above = 0;  ///< the height of what is over it
    double y = 0;
    double height = 0;
};

struct SheetPage {
    std::vector<SheetRow> rows;
};

struct SheetSize {
    double width = 210;
    double height = 297;
    double margin = 10;
    double letters = 10;  ///< beside the rows, for rehearsal letters
    [[nodiscard]] double left() const { return margin + letters; }
    [[nodiscard]] double right() const { return width - margin; }
};
[[nodiscard]] SheetSize size_of(Paper paper);

/// Sizes of all that is drawn, by one scale.
struct Measures {
    DiagramSize diagram;
    Hand hand = Hand::right;
    [[nodiscard]] double symbol_size() const;
    /// Where a symbol and its diagram's grid begin, from a change's left edge.
    [[nodiscard]] double indent() const;
    [[nodiscard]] double symbol_width(const std::string& symbol) const;
    [[nodiscard]] double symbol_height() const { return 1.2 * symbol_size(); }
    [[nodiscard]] double row_height() const { return symbol_height() + diagram.height(); }
    /// Of a row that has chords alone.
    [[nodiscard]] double low_row_height() const { return 1.6 * symbol_height(); }
    [[nodiscard]] double width_of(const SheetChange& change) const;
    [[nodiscard]] double width_of(const SheetBar& bar) const;
};

inline constexpr double letter_size = 6.5;
inline constexpr double name_size = 4.6;  ///< of a section with a long name, above its row
/// Whether a section's name has room beside the row.
[[nodiscard]] bool is_letter(const std::string& name);

struct Sheet {
    SheetSize paper;
    Measures measures;
    std::string road_map;  ///< at the foot; empty: none
    std::vector<SheetBar> bars;
    std::vector<SheetPage> pages;
};

/// Lays out a plan, as large as it may be; see voicing_page.hpp.
[[nodiscard]] Sheet lay_out(const chart::Form& form, const guitar::VoicingPlan& plan,
                            const PageWishes& wishes);

}  // namespace compline::report
