#pragma once

#include "as_written.hpp"
#include "sheet.hpp"
#include "svg.hpp"

#include <vector>

namespace compline::report {

// The rows of the lead sheet's page: which bars stand side by side, and how a row is drawn.

/// A row ends after four bars, with a section, and before a second ending.
using StaffRow = std::vector<BarAsWritten>;
[[nodiscard]] std::vector<StaffRow> staff_rows(const chart::Form& form);

inline constexpr int bars_a_staff = 4;

/// Sizes within a row, mm, which is drawn this high and made smaller where there are many.
inline constexpr double tallest_staff_row = 27;
inline constexpr double staff_top = 12;
inline constexpr double staff_gap = 1.6;  ///< between lines
inline constexpr double staff_foot = staff_top + 4 * staff_gap;
inline constexpr double small_size = 3.6;  ///< of words

/// Where a row stands on the page, and how much smaller than its full size.
struct StaffPlace {
    SheetSize paper;
    double y = 0;
    double scale = 1;
    [[nodiscard]] double at(double below) const { return y + below * scale; }
    [[nodiscard]] double bar_width() const { return (paper.right() - paper.left()) / bars_a_staff; }
    /// The bar line before a bar of the row, counted from 0.
    [[nodiscard]] double bar_line(std::size_t bar) const {
        return paper.left() + bar_width() * static_cast<double>(bar);
    }
};

/// The staff and all that stands in it, with the chords above it.
void draw_staff(Drawing& drawing, const chart::Form& form, const StaffRow& row,
                const StaffPlace& place);

/// Names, words, signs and brackets over the chords, cues under the staff.
void draw_staff_words(Drawing& drawing, const chart::Form& form, const StaffRow& row,
                      const StaffPlace& place);

}  // namespace compline::report
