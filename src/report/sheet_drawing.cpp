#include "sheet_drawing.hpp"

#include "road_signs.hpp"
#include "sheet_rows.hpp"
#include "sheet_signs.hpp"
#include "text_width.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace compline::report {

namespace {

/// Length of what is "♭" or "♯" at the start of `text`; 0: neither.
std::size_t accidental_bytes(std::string_view text) {
    const auto three = text.substr(0, 3);
    return three == "♭" || three == "♯" ? 3 : 0;
}

class RowDrawer {
  public:
    RowDrawer(Drawing& drawing, const Sheet& sheet, const SheetRow& row)
        : drawing_(drawing), sheet_(sheet), row_(row), y_(row.y + row.above) {}

    void draw() {
        if (!row_.words.empty()) {
            instead();
            return;
        }
        name(base_line(row_, 0));
        const double baseline = y_ + 0.8 * sheet_.measures.symbol_height();
        letter(baseline);
        number(row_.bars.front().bar->number);
        for (const auto& bar : row_.bars) draw(bar, baseline);
        draw_bar_line(drawing_, sheet_.paper.left(), lines());
        for (const auto& over : row_.over) draw(over);
    }

  private:
    /// Words in place of bars that were drawn already.
    void instead() {
        const double below = is_letter(row_.letter) ? 0 : name_line;
        name(row_.y + 0.8 * name_size);
        const Point at{sheet_.paper.left(), row_.y + below + 5};
        letter(at.y);
        const double room = sheet_.paper.right() - at.x;
        const double size = std::min(4.6, room / std::max(1.0, width_in_ems(row_.words)));
        draw_words(drawing_, at, row_.words, size);
    }

    /// A long one stands above its row.
    void name(double baseline) {
        if (is_letter(row_.letter)) return;
        drawing_.text({sheet_.paper.left(), baseline}, row_.letter,
                      {name_size, Anchor::start, Face::serif_bold, false});
    }

    void letter(double baseline) {
        if (row_.begins_coda) {
            draw_coda(drawing_, {sheet_.paper.left() - 3, base_line(row_, 0) - 1.4});
        }
        if (row_.letter.empty() || !is_letter(row_.letter)) return;
        drawing_.text({sheet_.paper.margin, baseline}, row_.letter,
                      {letter_size, Anchor::start, Face::serif_bold, false});
    }

    [[nodiscard]] BarLines lines() const {
        const auto& measures = sheet_.measures;
        const double height = row_.has_diagrams
                                  ? measures.symbol_height() + measures.diagram.above() +
                                        measures.diagram.grid_height()
                                  : measures.low_row_height();
        return {y_ + 0.12 * measures.symbol_height(), y_ + height};
    }

    /// Beside the row, at the foot of its bar line.
    void number(int bar) {
        drawing_.text({sheet_.paper.left() - 1.5, lines().foot}, std::to_string(bar),
                      {sign_size, Anchor::end, Face::serif, false});
    }

    void draw(const PlacedBar& placed, double baseline) {
        const auto& bar = *placed.bar;
        begin(placed);
        if (placed.simile) {
            simile(placed);
        } else {
            for (std::size_t i = 0; i < bar.changes.size(); ++i) {
                const double next =
                    i + 1 < placed.xs.size() ? placed.xs[i + 1] : placed.x + placed.width;
                draw(bar.changes[i], placed.xs[i], next - placed.xs[i], baseline);
            }
        }
        marks(placed);
        close(bar, placed.x + placed.width);
    }

    /// A time signature and a repeat sign, where they stand.
    void begin(const PlacedBar& placed) {
        double x = placed.x;
        const double middle = (lines().top + lines().foot) / 2;
        if (placed.bar->begins_meter) {
            const BarLines feet{middle - 0.4, middle + 0.4 + 0.66 * meter_size};
            x = draw_meter(drawing_, x + 1, feet, placed.bar->meter, meter_size) + 0.4;
        }
        if (placed.bar->written.begins_repeat) draw_repeat(drawing_, x, 1, lines(), repeat_dots);
    }

    void close(const SheetBar& bar, double end) {
        if (bar.written.ends_repeat) {
            draw_repeat(drawing_, end, -1, lines(), repeat_dots);
        } else if (bar.ends_all) {
            draw_final_line(drawing_, end, lines());
        } else if (bar.ends_section) {
            draw_double_line(drawing_, end, lines());
        } else {
            draw_bar_line(drawing_, end, lines());
        }
    }

    /// Accents over what is kicked, a fermata over the chord that is held.
    void marks(const PlacedBar& placed) {
        const double y = y_ - 0.5;
        for (const double kick : placed.bar->kicks) {
            drawing_.begin_group("kick");
            draw_accent(drawing_, {mark_at(placed, kick, sheet_.measures), y}, 1);
            drawing_.end_group();
        }
        if (placed.bar->held) {
            draw_fermata(drawing_, {mark_at(placed, 1, sheet_.measures), y + 0.6});
        }
    }

    void draw(const SheetChange& change, double x, double room, double baseline) {
        drawing_.begin_group("change");
        symbol(change.symbol, {x + sheet_.measures.indent(), baseline},
               room - sheet_.measures.indent());
        if (change.voicing != nullptr) {
            draw_diagram(drawing_, {x, y_ + sheet_.measures.symbol_height()},
                         sheet_.measures.diagram, change.voicing->grip, *change.move,
                         sheet_.measures.hand);
        }
        drawing_.end_group();
    }

    /// The root larger than the rest; squeezed where there is no room for it.
    void symbol(const std::string& text, Point at, double room) {
        const double size = sheet_.measures.symbol_size();
        const std::size_t bracket = text.front() == '(' ? 1 : 0;
        const bool chord = text != "N.C.";
        const auto root = chord ? 1 + accidental_bytes(std::string_view(text).substr(bracket + 1))
                                : std::size_t{0};
        const double width = sheet_.measures.symbol_width(text);
        const auto squeeze =
            width > room ? fmt::format(" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"",
                                       svg_number(room - 0.5))
                         : std::string();
        auto markup = fmt::format(
            "<text {}{}>{}", text_attributes(at, {size, Anchor::start, Face::serif_bold, false}),
            squeeze, text.substr(0, bracket));
        if (root > 0) {
            markup += fmt::format("<tspan font-size=\"{}\">{}</tspan>", svg_number(1.15 * size),
                                  escaped(text.substr(bracket, root)));
        }
        markup += escaped(text.substr(bracket + root)) + "</text>\n";
        drawing_.raw(markup);
    }

    /// The bar before once more.
    void simile(const PlacedBar& placed) {
        const auto& diagram = sheet_.measures.diagram;
        const double scale = diagram.scale;
        const double x = placed.x + placed.width / 2;
        const double middle =
            y_ + sheet_.measures.symbol_height() + diagram.above() + diagram.grid_height() / 2;
        drawing_.line({x - 2.4 * scale, middle + 2.4 * scale},
                      {x + 2.4 * scale, middle - 2.4 * scale}, 0.9 * scale);
        drawing_.filled_circle({x - 2 * scale, middle - 1.4 * scale}, 0.6 * scale);
        drawing_.filled_circle({x + 2 * scale, middle + 1.4 * scale}, 0.6 * scale);
    }

    void draw(const OverRow& over) {
        const Point at{over.x, base_line(row_, over.line)};
        switch (over.kind) {
            case OverRow::Kind::words:
                draw_words(drawing_, at, over.text, sign_size,
                           over.at_end ? Anchor::end : Anchor::start);
                break;
            case OverRow::Kind::segno:
                draw_segno(drawing_, {at.x + 1.5, at.y - 1});
                break;
            case OverRow::Kind::to_coda:
                draw_to_coda(drawing_, at, sign_size);
                break;
            case OverRow::Kind::ending:
                draw_ending(drawing_, {at.x, at.y - 2.8}, over.to, over.text, sign_size);
                break;
        }
    }

    static constexpr double repeat_dots = 3;  ///< apart

    Drawing& drawing_;
    const Sheet& sheet_;
    const SheetRow& row_;
    double y_;  ///< of the symbols' upper edge
};

}  // namespace

void draw_row(Drawing& drawing, const Sheet& sheet, const SheetRow& row) {
    RowDrawer(drawing, sheet, row).draw();
}

}  // namespace compline::report
