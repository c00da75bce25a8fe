#include "as_written.hpp"
#include "lead_sheet_rows.hpp"
#include "page.hpp"
#include "sheet.hpp"
#include "svg.hpp"
#include "text_width.hpp"
#include "words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/lead_sheet.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace compline::report {

namespace {

using chart::Form;

constexpr double page_heading = 24;  ///< of the page, mm
constexpr double footing = 12;
constexpr double before_coda = 4;

/// The sheet in rows, each drawn into its box.
class SheetWriter {
  public:
    SheetWriter(const Form& form, const SheetSize& paper) : form_(form), paper_(paper) {}

    [[nodiscard]] std::string draw() {
        const auto rows = staff_rows(form_);
        title();
        const double room = paper_.height - 2 * paper_.margin - page_heading - footing -
                            (form_.coda_from ? before_coda : 0);
        const double height = std::min(tallest_staff_row, room / static_cast<double>(rows.size()));
        StaffPlace place{paper_, paper_.margin + page_heading,
                         std::min(1.0, height / tallest_staff_row)};
        for (const auto& row : rows) {
            if (row.front().begins_coda) place.y += before_coda;
            draw_staff(drawing_, form_, row, place);
            draw_staff_words(drawing_, form_, row, place);
            place.y += height;
        }
        foot();
        return drawing_.markup();
    }

  private:
    void text(double x, double y, const std::string& words, double size, Anchor anchor) {
        drawing_.text({x, y}, words, {size, anchor, Face::serif, false});
    }

    void title() {
        const auto& chart = form_.chart;
        const double room = paper_.width - 2 * paper_.margin;
        const double size = std::clamp(room / std::max(1.0, width_in_ems(chart.title)), 4.0, 8.8);
        text(paper_.width / 2, paper_.margin + 7, chart.title, size, Anchor::middle);
        auto words = chart.key.name();
        if (!form_.lead_in.empty()) words += " · lead-in: " + lead_in_chords(form_);
        text(paper_.left(), paper_.margin + 15, words, 4.6, Anchor::start);
        text(paper_.right(), paper_.margin + 15,
             fmt::format("{} = {}", "quarter note", plain(chart.tempo.count())), 4.6, Anchor::end);
    }

    /// How it is played.
    void foot() {
        const auto way = chart::own_road_map(form_);
        if (!way) return;
        const auto words = chart::road_map_in_words(*way, form_);
        const double room = paper_.right() - paper_.margin;
        const double size = std::min(4.2, room / std::max(1.0, width_in_ems(words)));
        text(paper_.margin, paper_.height - paper_.margin, words, size, Anchor::start);
    }

    const Form& form_;
    SheetSize paper_;
    Drawing drawing_;
};

}  // namespace

std::string lead_sheet_html(const Form& form, Paper paper) {
    const auto size = size_of(paper);
    return page_of(form.chart.title, size,
                   svg_tag(size, size.height) + SheetWriter(form, size).draw() + "</svg>\n");
}

}  // namespace compline::report
