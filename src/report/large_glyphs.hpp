#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace compline::report {

/// A character drawn by hand, in pixels: rows of '#' and blanks, all of one width.
class Glyph {
  public:
    /// `rows`: from above, with '|' between them.
    constexpr explicit Glyph(std::string_view rows)
        : rows_(rows), columns_(static_cast<int>(rows.find('|'))) {}

    [[nodiscard]] constexpr int columns() const { return columns_; }
    [[nodiscard]] constexpr int rows() const {
        return (static_cast<int>(rows_.size()) + 1) / (columns_ + 1);
    }
    [[nodiscard]] constexpr bool is_set(int column, int row) const {
        const auto width = static_cast<std::size_t>(columns_) + 1;
        return rows_[static_cast<std::size_t>(row) * width + static_cast<std::size_t>(column)] ==
               '#';
    }

  private:
    std::string_view rows_;
    int columns_;
};

/// `large`: letters, digits and the signs of chord symbols, seven rows high; `small`: digits, x, o
/// and T, four rows high.
enum class GlyphSet { large, small };
inline constexpr int glyph_rows = 7;
inline constexpr int small_glyph_rows = 4;
inline constexpr int small_glyph_columns = 3;

/// None for a character that nobody has drawn.
[[nodiscard]] std::optional<Glyph> find_glyph(GlyphSet set, char32_t character);

}  // namespace compline::report
