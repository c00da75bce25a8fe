#pragma once

#include "large_glyphs.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

/// By how much a glyph's columns and rows are drawn larger.
struct Scale {
    int across = 1;
    int down = 1;
};

/// Columns of pixels that a text takes, a column (of its scale) between its glyphs.
[[nodiscard]] int pixels_across(std::string_view text, GlyphSet set = GlyphSet::large);

/// Every character of it is drawn.
[[nodiscard]] bool has_glyphs(std::string_view text);

/// A part of a terminal in pixels: a column wide, half a line high, drawn by ▀ ▄ █. They are about
/// square. Characters may stand among them. What lies outside is left out.
class Canvas {
  public:
    Canvas(int columns, int lines);

    [[nodiscard]] int columns() const { return columns_; }
    [[nodiscard]] int lines() const { return lines_; }

    // Places and sizes in pixels, from the left upper corner.

    void fill(int column, int row, int columns, int rows, bool set = true);
    /// A character without a glyph is drawn as a blank. Gives the column behind the last glyph.
    int draw(std::string_view text, int column, int row, Scale scale,
             GlyphSet set = GlyphSet::large);

    /// Text as it is, a character a column, from a column of a line on.
    void write(std::string_view text, int column, int line);
    /// No character stands there any more.
    void unwrite(int column, int line);

    /// From above, without blanks at their ends.
    [[nodiscard]] std::vector<std::string> drawn() const;

  private:
    void put(char32_t character, int column, int line);
    [[nodiscard]] std::string line(int number) const;
    [[nodiscard]] std::size_t cell(int column, int row) const;
    [[nodiscard]] bool is_set(int column, int row) const;

    int columns_;
    int lines_;
    std::vector<char> pixels_;
    std::vector<char32_t> characters_;  ///< 0 where there is none
};

}  // namespace compline::report
