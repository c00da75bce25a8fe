#include "large_grip.hpp"

#include "fret_window.hpp"

#include <algorithm>
#include <string>

namespace compline::report {

namespace {

struct GripMeasures {
    int across;   ///< pixels of a digit
    int rows;     ///< its pixels
    int spacing;  ///< columns from string to string
    [[nodiscard]] int lines() const { return (rows + 1) / 2; }
    [[nodiscard]] int label() const { return 2 * across + 2; }
};

GripMeasures measures_of(GripLook look) {
    constexpr int gap = 1;
    constexpr int digit = 5;  ///< columns of the large ones
    return look.set == GlyphSet::small
               ? GripMeasures{small_glyph_columns, small_glyph_rows, small_glyph_columns + gap}
               : GripMeasures{digit, glyph_rows, digit + 2 * gap};
}

/// A diagram as it is being drawn.
class Neck {
  public:
    Neck(Canvas& canvas, const guitar::Grip& grip, GripLook look, int column, int line, Hand hand)
        : canvas_(canvas),
          grip_(grip),
          set_(look.set),
          size_(measures_of(look)),
          window_(window_of(grip.shape)),
          column_(column),
          line_(line),
          hand_(hand) {}

    void draw() {
        draw_label();
        for (int string = 1; string <= strings(); ++string) draw_mark(string);
        draw_wires();
        draw_barres();
        for (int string = 1; string <= strings(); ++string) draw_finger(string);
    }

  private:
    [[nodiscard]] int strings() const { return grip_.shape.strings; }
    /// The column of a string; of a right-handed player's the lowest is on the left.
    [[nodiscard]] int column_of(int string) const {
        const int from_left = hand_ == Hand::right ? strings() - string : string - 1;
        return column_ + size_.label() + size_.across / 2 + from_left * size_.spacing;
    }
    [[nodiscard]] int left() const { return std::min(column_of(1), column_of(strings())); }
    [[nodiscard]] int right() const { return std::max(column_of(1), column_of(strings())); }
    /// The first line of a fret.
    [[nodiscard]] int line_of(int fret) const {
        return line_ + size_.lines() + 1 + (fret - window_.first) * (size_.lines() + 1);
    }
    void sign(const std::string& text, int string, int line) {
        // One fret has one column more than digits of an even width; ours are odd.
        canvas_.draw(text, column_of(string) - size_.across / 2, line * 2, {}, set_);
    }
    void draw_label() {
        if (window_.at_nut()) return;
        const auto number = std::to_string(window_.first);
        const int width = pixels_across(number, set_);
        canvas_.draw(number, column_ + size_.label() - 2 - width, line_of(window_.first) * 2, {},
                     set_);
    }
    void draw_mark(int string) {
        const auto& fret = grip_.shape.on(string);
        if (!fret || *fret == 0) sign(fret ? "o" : "x", string, line_);
    }
    void draw_wires() {
        const int top = line_of(window_.first) - 1;
        if (window_.at_nut()) canvas_.fill(left(), top * 2 + 1, right() - left() + 1, 1);
        for (int fret = 0; fret <= window_.frets; ++fret) {
            const int line = top + fret * (size_.lines() + 1);
            const bool last = fret == window_.frets;
            if (fret > 0 || !window_.at_nut())
                draw_wire(line, fret == 0 ? "┌┬┐" : last ? "└┴┘" : "├┼┤");
            for (int i = 1; !last && i <= size_.lines(); ++i) draw_strings(line + i);
        }
    }
    /// Its signs: at the left, in the middle, at the right.
    void draw_wire(int line, const std::string& signs) {
        constexpr std::size_t bytes = 3;
        for (int column = left() + 1; column < right(); ++column) {
            canvas_.write("─", column, line);
        }
        for (int string = 1; string <= strings(); ++string) {
            const int column = column_of(string);
            const std::size_t which = column == left() ? 0 : column == right() ? 2 : 1;
            canvas_.write(signs.substr(which * bytes, bytes), column, line);
        }
    }
    void draw_strings(int line) {
        for (int string = 1; string <= strings(); ++string) {
            canvas_.write("│", column_of(string), line);
        }
    }
    void draw_barres() {
        for (const auto& hold : grip_.holds()) {
            if (!hold.is_barre()) continue;
            const auto [from, to] = std::minmax({column_of(hold.low), column_of(hold.high)});
            clear(from, to, line_of(hold.fret));
            canvas_.fill(from, line_of(hold.fret) * 2 + size_.rows / 2 - 1, to - from + 1,
                         size_.rows < glyph_rows ? 1 : 2);
        }
    }
    void draw_finger(int string) {
        const auto& fret = grip_.shape.on(string);
        if (!fret || *fret == 0) return;
        const int left = column_of(string) - size_.across / 2;
        const int line = line_of(*fret);
        clear(left, left + size_.across - 1, line);
        canvas_.fill(left, line * 2, size_.across, size_.rows, false);
        const auto finger = name_of(grip_.on(string));
        if (finger.empty()) return canvas_.fill(left, line * 2, size_.across, size_.rows);
        sign(std::string(finger), string, line);
    }
    /// No string is seen under a finger.
    void clear(int from, int to, int line) {
        for (int i = 0; i < size_.lines(); ++i) {
            for (int column = from; column <= to; ++column) canvas_.unwrite(column, line + i);
        }
    }

    Canvas& canvas_;
    const guitar::Grip& grip_;
    GlyphSet set_;
    GripMeasures size_;
    FretWindow window_;
    int column_;
    int line_;
    Hand hand_;
};

}  // namespace

int GripLook::columns(int strings) const {
    const auto size = measures_of(*this);
    return size.label() + (strings - 1) * size.spacing + size.across;
}

int GripLook::lines(int frets) const {
    const auto size = measures_of(*this);
    return size.lines() + 1 + frets * (size.lines() + 1);
}

int frets_of(const guitar::Shape& shape) { return window_of(shape).frets; }

void draw(Canvas& canvas, const guitar::Grip& grip, GripLook look, int column, int line,
          Hand hand) {
    Neck(canvas, grip, look, column, line, hand).draw();
}

}  // namespace compline::report
