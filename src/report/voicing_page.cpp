#include "as_written.hpp"
#include "page.hpp"
#include "road_signs.hpp"
#include "sheet.hpp"
#include "sheet_drawing.hpp"
#include "svg.hpp"
#include "text_width.hpp"
#include "voicing_words.hpp"
#include "words.hpp"

#include <compline/chart/summary.hpp>
#include <compline/report/voicing_page.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

constexpr double small_text = 3.4;  ///< legend, road map

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
        for (const auto& row : sheet_.pages[index].rows) draw_row(drawing_, sheet_, row);
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
        double left_size = 5;
        if (plan_.passage.from == 1 && !voicings_.form.lead_in.empty()) {
            left += " · lead-in: " + lead_in_chords(voicings_.form);
            left_size = std::min(left_size, room_left(middle) / width_in_ems(left));
        }
        drawing_.text({sheet_.paper.left(), y}, left,
                      {left_size, Anchor::start, Face::serif, false});
        drawing_.text({middle, y}, guitar_words(plan_.fretboard),
                      {4.4, Anchor::middle, Face::serif, false});
        tempo({sheet_.paper.right(), y});
    }

    /// Before the words on the guitar, or before the tempo.
    [[nodiscard]] double room_left(double middle) const {
        const double guitar = 4.4 * width_in_ems(guitar_words(plan_.fretboard));
        const double tempo = 5 * (width_in_ems("= " + plain(plan_.tempo.count())) + 2);
        const double end = guitar > 0 ? middle - guitar / 2 : sheet_.paper.right() - tempo;
        return end - sheet_.paper.left() - 2;
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

    void legend(std::size_t index) {
        const double y = sheet_.paper.height - sheet_.paper.margin;
        road_map(y - 5);
        double x = sheet_.paper.left();
        constexpr double radius = 1.4;
        draw_dot(drawing_, {x + radius, y - 1.1}, radius, "1", true);
        drawing_.text({x + 4, y}, "the finger stays",
                      {small_text, Anchor::start, Face::serif, false});
        x += 38;
        draw_arrow(drawing_, {x, y - 1.1}, {x + 4, y - 1.1}, 1);
        draw_dot(drawing_, {x + 4 + radius, y - 1.1}, radius, "1", false);
        drawing_.text({x + 8, y}, "it slides along its string, from where it was",
                      {small_text, Anchor::start, Face::serif, false});
        if (sheet_.pages.size() > 1) {
            drawing_.text({sheet_.paper.right(), y},
                          fmt::format("{} of {}", index + 1, sheet_.pages.size()),
                          {small_text, Anchor::end, Face::serif, false});
        }
    }

    /// How it is played, on every page.
    void road_map(double y) {
        if (sheet_.road_map.empty()) return;
        const double room = sheet_.paper.right() - sheet_.paper.left();
        const double size = std::min(4.2, room / width_in_ems(sheet_.road_map));
        draw_words(drawing_, {sheet_.paper.left(), y}, sheet_.road_map, size);
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
