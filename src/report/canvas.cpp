#include "canvas.hpp"

#include <compline/text/utf8.hpp>

#include <algorithm>
#include <cstddef>

namespace compline::report {

namespace {

constexpr int blank = 3;  ///< pixels of a character that nobody has drawn

template <typename Visit>
void each_character(std::string_view text, Visit visit) {
    for (std::size_t at = 0; at < text.size();) {
        const auto c = text::code_point_at(text, at);
        visit(c.value);
        at += c.bytes;
    }
}

/// Unicode, table 3-6.
void append(std::string& text, char32_t c) {
    const auto byte = [&](char32_t value) { text += static_cast<char>(value); };
    if (c < 0x80) return byte(c);
    if (c < 0x800) {
        byte(0xC0 | (c >> 6));
    } else {
        if (c < 0x10000) byte(0xE0 | (c >> 12));
        if (c >= 0x10000) byte(0xF0 | (c >> 18));
        if (c >= 0x10000) byte(0x80 | ((c >> 12) & 0x3F));
        byte(0x80 | ((c >> 6) & 0x3F));
    }
    byte(0x80 | (c & 0x3F));
}

}  // namespace

int pixels_across(std::string_view text, GlyphSet set) {
    int columns = 0;
    each_character(text, [&](char32_t c) {
        const auto glyph = find_glyph(set, c);
        columns += (columns > 0 ? 1 : 0) + (glyph ? glyph->columns() : blank);
    });
    return columns;
}

bool has_glyphs(std::string_view text) {
    bool all = true;
    each_character(text, [&](char32_t c) { all = all && find_glyph(GlyphSet::large, c); });
    return all;
}

Canvas::Canvas(int columns, int lines)
    : columns_(columns),
      lines_(lines),
      pixels_(static_cast<std::size_t>(columns * lines * 2)),
      characters_(static_cast<std::size_t>(columns * lines)) {}

void Canvas::fill(int column, int row, int columns, int rows, bool set) {
    const int right = std::min(column + columns, columns_);
    const int bottom = std::min(row + rows, lines_ * 2);
    const int left = std::max(column, 0);
    for (int y = std::max(row, 0); y < bottom && left < right; ++y) {
        std::fill_n(pixels_.begin() + static_cast<std::ptrdiff_t>(y) * columns_ + left,
                    right - left, static_cast<char>(set));
    }
}

int Canvas::draw(std::string_view text, int column, int row, Scale scale, GlyphSet set) {
    int x = column;
    each_character(text, [&](char32_t c) {
        if (x > column) x += scale.across;
        const auto glyph = find_glyph(set, c);
        const int across = glyph ? glyph->columns() : blank;
        for (int i = 0; glyph && i < across * glyph->rows(); ++i) {
            const int from = i % across;
            const int down = i / across;
            if (!glyph->is_set(from, down)) continue;
            fill(x + from * scale.across, row + down * scale.down, scale.across, scale.down);
        }
        x += across * scale.across;
    });
    return x;
}

void Canvas::write(std::string_view text, int column, int line) {
    each_character(text, [&](char32_t c) { put(c, column++, line); });
}

void Canvas::unwrite(int column, int line) { put(0, column, line); }

void Canvas::put(char32_t character, int column, int line) {
    if (line < 0 || line >= lines_ || column < 0 || column >= columns_) return;
    characters_[cell(column, line)] = character;
}

std::size_t Canvas::cell(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
           static_cast<std::size_t>(column);
}

bool Canvas::is_set(int column, int row) const { return pixels_[cell(column, row)] != 0; }

std::string Canvas::line(int number) const {
    std::string text;
    std::size_t blanks = 0;
    for (int column = 0; column < columns_; ++column) {
        const auto c = characters_[cell(column, number)];
        const bool upper = is_set(column, number * 2);
        const bool lower = is_set(column, number * 2 + 1);
        if (c == U' ' || (c == 0 && !upper && !lower)) {
            ++blanks;
            continue;
        }
        text.append(blanks, ' ');
        blanks = 0;
        append(text, c != 0 ? c : !lower ? U'▀' : !upper ? U'▄' : U'█');
    }
    return text;
}

std::vector<std::string> Canvas::drawn() const {
    std::vector<std::string> drawn;
    drawn.reserve(static_cast<std::size_t>(lines_));
    for (int number = 0; number < lines_; ++number) drawn.push_back(line(number));
    return drawn;
}

}  // namespace compline::report
