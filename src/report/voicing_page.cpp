#include "page.hpp"
#include "sheet.hpp"
#include "svg.hpp"
#include "text_width.hpp"
#include "voicing_words.hpp"
#include "words.hpp"

#include <compline/chart/summary.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/voicing_page.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

constexpr double thin_line = 0.25;
constexpr double heavy_line = 0.9;
constexpr double small = 3.4;  ///< legend, bar numbers

/// Length of what is "♭" or "♯" at the start of `text`; 0: neither.
std::size_t accidental_bytes(std::string_view text) {
    const auto three = text.substr(0, 3);
    return three == "♭" || three == "♯" ? 3 : 0;
}

/// The text, or its beginning and "…" where it is wider than so many ems.
std::string fitting(const std::string& text, double ems) {
    std::string kept = text;
    for (int columns = columns_of(text); width_in_ems(kept) > ems && columns > 1; --columns) {
        kept = cut_to_columns(text, columns - 1);
    }
    return kept;
}

/// Draws one page after another into SVG.
class PageWriter {
  public:
    PageWriter(const Voicings& voicings, const Sheet& sheet)
        : voicings_(voicings), plan_(voicings.plans.front()), sheet_(sheet) {}

    [[nodiscard]] std::string page(std::size_t index) {
        drawing_ = Drawing();
        if (index == 0) {
            title();
        } else {
            later_title();
        }
        for (const auto& row : sheet_.pages[index].rows) draw(row);
        legend(index);
        return drawing_.markup();
    }

  private:
    void title() {
        const auto& chart = voicings_.form.chart;
        const double middle = sheet_.paper.width / 2;
        const double room = sheet_.paper.width - 2 * sheet_.paper.margin;
        const double size = std::clamp(room / std::max(1.0, width_in_ems(chart.title)), 5.0, 8.8);
        drawing_.text({middle, sheet_.paper.margin + 7}, fitting(chart.title, room / size),
                      {size, Anchor::middle, Face::serif, false});
        const double y = sheet_.paper.margin + 15;
        std::string left = fmt::format("{} · {}", key_in_words(chart), meter_words(chart.meter));
        if (plan_.passage != voicings_.form.all()) left += " · " + bars_words();
        drawing_.text({sheet_.paper.left(), y}, left, {5, Anchor::start, Face::serif, false});
        drawing_.text({middle, y}, guitar_words(plan_.fretboard),
                      {4.4, Anchor::middle, Face::serif, false});
        tempo({sheet_.paper.right(), y});
    }

    void later_title() {
        const double room = sheet_.paper.right() - sheet_.paper.left();
        drawing_.text({sheet_.paper.left(), sheet_.paper.margin + 3.5},
                      fitting(voicings_.form.chart.title, room / 4.4),
                      {4.4, Anchor::start, Face::serif, false});
    }

    [[nodiscard]] std::string bars_words() const {
        const auto bars = plan_.passage;
        return bars.bars() == 1 ? fmt::format("bar {}", bars.from)
                                : fmt::format("bars {}–{}", bars.from, bars.to);
    }

    /// A quarter note, drawn, and "= 132".
    void tempo(Point right) {
        const auto words = "= " + plain(plan_.tempo.count());
        constexpr double widest_font = 1.3;  // beside the estimate
        const double x = right.x - 5 * widest_font * width_in_ems(words) - 2.4;
        drawing_.text({x + 2.4, right.y}, words, {5, Anchor::start, Face::serif, false});
        drawing_.raw(
            fmt::format("<ellipse cx=\"{0}\" cy=\"{1}\" rx=\"1.15\" ry=\"0.8\" "
                        "transform=\"rotate(-22 {0} {1})\"/>\n",
                        svg_number(x), svg_number(right.y - 0.8)));
        drawing_.line({x + 1, right.y - 1.1}, {x + 1, right.y - 5.2}, 0.25);
    }

    void draw(const SheetRow& row) {
        double y = row.y;
        if (!is_letter(row.letter)) {
            drawing_.text({sheet_.paper.left(), y + 0.8 * name_size}, row.letter,
                          {name_size, Anchor::start, Face::serif_bold, false});
            y += 1.2 * name_size;
        }
        const double baseline = y + 0.8 * sheet_.measures.symbol_height();
        if (!row.words.empty()) {
            letter(row, y + 5);
            words({sheet_.paper.left(), y + 5}, row.words);
            return;
        }
        letter(row, baseline);
        number(row.bars.front().bar->number, y);
        for (const auto& bar : row.bars) draw(bar, y, baseline);
        bar_line(sheet_.paper.left(), y);
    }

    void letter(const SheetRow& row, double baseline) {
        if (row.letter.empty() || !is_letter(row.letter)) return;
        drawing_.text({sheet_.paper.margin, baseline}, row.letter,
                      {letter_size, Anchor::start, Face::serif_bold, false});
    }

    void words(Point at, const std::string& text) {
        const double room = sheet_.paper.right() - at.x;
        const double size = std::min(4.6, room / std::max(1.0, width_in_ems(text)));
        drawing_.text(at, text, {size, Anchor::start, Face::serif, false});
    }

    /// Beside the row, at the foot of its bar line.
    void number(int bar, double y) {
        const double foot = y + sheet_.measures.symbol_height() + sheet_.measures.diagram.above() +
                            sheet_.measures.diagram.grid_height();
        drawing_.text({sheet_.paper.left() - 1.5, foot}, std::to_string(bar),
                      {small, Anchor::end, Face::serif, false});
    }

    void draw(const PlacedBar& placed, double y, double baseline) {
        const auto& bar = *placed.bar;
        if (placed.simile) {
            simile(placed, y);
        } else {
            for (std::size_t i = 0; i < bar.changes.size(); ++i) {
                const double next =
                    i + 1 < placed.xs.size() ? placed.xs[i + 1] : placed.x + placed.width;
                draw(bar.changes[i], placed.xs[i], next - placed.xs[i], y, baseline);
            }
        }
        const double end = placed.x + placed.width;
        if (bar.ends_all) {
            bar_line(end - heavy_line / 2, y, heavy_line);
            bar_line(end - heavy_line - 0.9, y);
        } else if (bar.ends_section) {
            bar_line(end, y);
            bar_line(end - 0.9, y);
        } else {
            bar_line(end, y);
        }
    }

    void draw(const SheetChange& change, double x, double room, double y, double baseline) {
        drawing_.begin_group("change");
        symbol(change.symbol, {x + sheet_.measures.indent(), baseline},
               room - sheet_.measures.indent());
        if (change.voicing != nullptr) {
            draw_diagram(drawing_, {x, y + sheet_.measures.symbol_height()},
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

    void bar_line(double x, double y, double width = thin_line) {
        const double top = y + 0.12 * sheet_.measures.symbol_height();
        const double bottom = y + sheet_.measures.symbol_height() +
                              sheet_.measures.diagram.above() +
                              sheet_.measures.diagram.grid_height();
        drawing_.line({x, top}, {x, bottom}, width);
    }

    /// The bar before once more.
    void simile(const PlacedBar& placed, double y) {
        const auto& diagram = sheet_.measures.diagram;
        const double scale = diagram.scale;
        const double x = placed.x + placed.width / 2;
        const double middle =
            y + sheet_.measures.symbol_height() + diagram.above() + diagram.grid_height() / 2;
        drawing_.line({x - 2.4 * scale, middle + 2.4 * scale},
                      {x + 2.4 * scale, middle - 2.4 * scale}, 0.9 * scale);
        drawing_.filled_circle({x - 2 * scale, middle - 1.4 * scale}, 0.6 * scale);
        drawing_.filled_circle({x + 2 * scale, middle + 1.4 * scale}, 0.6 * scale);
    }

    void legend(std::size_t index) {
        const double y = sheet_.paper.height - sheet_.paper.margin;
        double x = sheet_.paper.left();
        constexpr double radius = 1.4;
        draw_dot(drawing_, {x + radius, y - 1.1}, radius, "1", true);
        drawing_.text({x + 4, y}, "the finger stays", {small, Anchor::start, Face::serif, false});
        x += 38;
        draw_arrow(drawing_, {x, y - 1.1}, {x + 4, y - 1.1}, 1);
        draw_dot(drawing_, {x + 4 + radius, y - 1.1}, radius, "1", false);
        drawing_.text({x + 8, y}, "it slides along its string, from where it was",
                      {small, Anchor::start, Face::serif, false});
        if (sheet_.pages.size() > 1) {
            drawing_.text({sheet_.paper.right(), y},
                          fmt::format("{} of {}", index + 1, sheet_.pages.size()),
                          {small, Anchor::end, Face::serif, false});
        }
    }

    const Voicings& voicings_;
    const guitar::VoicingPlan& plan_;
    const Sheet& sheet_;
    Drawing drawing_;
};

}  // namespace

std::string voicings_html(const Voicings& voicings, const PageWishes& wishes) {
    const auto sheet = lay_out(voicings.form, voicings.plans.front(), wishes);
    PageWriter writer(voicings, sheet);
    std::string drawings;
    for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
        drawings += svg_tag(sheet.paper, sheet.paper.height) + writer.page(i) + "</svg>\n";
    }
    return page_of(voicings.form.chart.title, sheet.paper, drawings);
}

std::string voicings_svg(const Voicings& voicings, const PageWishes& wishes) {
    const auto sheet = lay_out(voicings.form, voicings.plans.front(), wishes);
    const double height = sheet.paper.height * static_cast<double>(sheet.pages.size());
    auto svg = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + svg_tag(sheet.paper, height) +
               "<title>" + escaped(voicings.form.chart.title) + "</title>\n";
    svg += "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n";
    PageWriter writer(voicings, sheet);
    for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
        svg += fmt::format("<g transform=\"translate(0 {})\">\n",
                           svg_number(sheet.paper.height * static_cast<double>(i)));
        svg += writer.page(i) + "</g>\n";
    }
    return svg + "</svg>\n";
}

}  // namespace compline::report
