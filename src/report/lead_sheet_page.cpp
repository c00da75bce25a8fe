#include "as_written.hpp"
#include "page.hpp"
#include "road_signs.hpp"
#include "sheet.hpp"
#include "svg.hpp"
#include "text_width.hpp"
#include "words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/lead_sheet.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace compline::report {

namespace {

using chart::Form;
using time::Ticks;

constexpr double heading = 24;  ///< of the page, mm
constexpr double footing = 12;
constexpr double tallest_row = 27;
constexpr int bars_a_row = 4;

/// Sizes within a row, which is drawn 24 mm high and made smaller where there are many.
constexpr double staff_top = 12;
constexpr double staff_gap = 1.6;  ///< between lines
constexpr double symbol_size = 5.4;
constexpr double small_size = 3.6;
constexpr double letter_box = 5.2;
constexpr double name_box = 3.8;

/// Bars side by side.
using PageRow = std::vector<BarAsWritten>;

/// A row ends after four bars, with a section, and before a second ending.
std::vector<PageRow> rows_of(const Form& form) {
    std::vector<PageRow> rows;
    bool has_ending = false;
    for (const auto& bar : as_written(form)) {
        const bool again = !bar.ending.empty() && has_ending;
        if (bar.begins_section) has_ending = false;
        if (!bar.ending.empty()) has_ending = true;
        const bool full = !rows.empty() && rows.back().size() == bars_a_row;
        if (rows.empty() || full || bar.begins_section || again) rows.emplace_back();
        rows.back().push_back(bar);
    }
    return rows;
}

/// The sheet in rows, each drawn into its box.
class SheetWriter {
  public:
    SheetWriter(const Form& form, const SheetSize& paper) : form_(form), paper_(paper) {}

    [[nodiscard]] std::string draw() {
        const auto rows = rows_of(form_);
        title();
        const double room =
            paper_.height - 2 * paper_.margin - heading - footing - (form_.coda_from ? 4 : 0);
        const double height = std::min(tallest_row, room / static_cast<double>(rows.size()));
        scale_ = std::min(1.0, height / tallest_row);
        y_ = paper_.margin + heading;
        for (const auto& row : rows) {
            if (row.front().begins_coda) y_ += 4;
            draw(row);
            y_ += height;
        }
        foot();
        return drawing_.markup();
    }

  private:
    [[nodiscard]] double at(double y) const { return y_ + y * scale_; }

    void text(double x, double y, const std::string& words, double size, Anchor anchor,
              Face face = Face::serif) {
        drawing_.text({x, y}, words, {size, anchor, face, false});
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

    void draw(const PageRow& row) {
        const double left = paper_.left();
        const double width = (paper_.right() - left) / bars_a_row;
        const double right = left + width * static_cast<double>(row.size());
        for (int n = 0; n < 5; ++n) {
            const double y = at(staff_top + staff_gap * n);
            drawing_.line({left, y}, {right, y}, thin_line);
        }
        const auto& first = row.front();
        if (first.begins_section) letter(form_.bar(first.number).section);
        text(left - 1.5, at(staff_top + staff_gap * 4), std::to_string(first.number),
             small_size * scale_, Anchor::end);
        draw_bar_line(drawing_, left, lines());
        for (std::size_t i = 0; i < row.size(); ++i) {
            draw(row[i], left + width * static_cast<double>(i), width);
        }
        brackets(row, left, width);
    }

    void letter(const std::string& name) {
        const double size = (is_letter(name) ? letter_box : name_box) * scale_;
        const double width = std::max(1.0, width_in_ems(name)) * size + 2;
        const double x = paper_.margin;
        drawing_.raw(fmt::format(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" "
            "stroke=\"#000\" stroke-width=\"0.3\"/>\n",
            svg_number(x), svg_number(at(0)), svg_number(width), svg_number(size * 1.25)));
        text(x + width / 2, at(0) + size, name, size, Anchor::middle, Face::serif_bold);
    }

    void draw(const BarAsWritten& shown, double x, double width) {
        const auto& bar = form_.bar(shown.number);
        const double end = x + width;
        double inner = x + 2;
        if (begins_meter(bar)) inner = meter(x + 1.2, bar.meter) + 1.2;
        if (shown.begins_repeat) {
            inner = repeat_sign(begins_meter(bar) ? inner : x, 1) + 1;
        }
        const double room = end - inner - (shown.ends_repeat ? 3 : 1);
        slashes(bar, inner, room);
        symbols(bar, inner, room, end);
        words_above(shown, x, end);
        close(shown, end);
    }

    /// At the beginning, and where it changes.
    [[nodiscard]] bool begins_meter(const chart::FormBar& bar) const {
        return bar.number == 1 || form_.bar(bar.number - 1).meter.written() != bar.meter.written();
    }

    double meter(double x, time::Meter of) {
        const BarLines feet{at(staff_top + staff_gap * 2 - 0.2), at(staff_top + staff_gap * 4)};
        return draw_meter(drawing_, x, feet, of, 5 * scale_);
    }

    [[nodiscard]] BarLines lines() const { return {at(staff_top), at(staff_top + staff_gap * 4)}; }

    [[nodiscard]] static double place(const chart::FormBar& bar, Ticks in_bar, double inner,
                                      double room) {
        return inner + room * static_cast<double>(in_bar.count()) /
                           static_cast<double>(bar.meter.bar().count());
    }

    /// One a beat as the meter is written; kicks are accents over them.
    void slashes(const chart::FormBar& bar, double inner, double room) {
        const double middle = at(staff_top + staff_gap * 2);
        const double half = staff_gap * 1.1 * scale_;
        const auto beat = bar.meter.is_compound() ? bar.meter.beat() : time::quarter_note;
        for (Ticks in; in < bar.meter.bar(); in += beat) {
            const double x = place(bar, in, inner, room) + 1.2;
            drawing_.line({x - half * 0.7, middle + half}, {x + half * 0.7, middle - half},
                          0.8 * scale_);
        }
        const double below = at(staff_top + staff_gap * 4 + 2.4);
        for (const auto kick : bar.kicks) {
            draw_accent(drawing_, {place(bar, kick, inner, room) + 1.2, below}, scale_);
        }
    }

    void symbols(const chart::FormBar& bar, double inner, double room, double end) {
        const auto spans = form_.spans_in(bar.number);
        for (std::size_t i = 0; i < spans.size(); ++i) {
            if (i == 0 && goes_on(bar, spans[0])) continue;
            const double x = place(bar, spans[i].start - bar.start, inner, room);
            const double next = i + 1 < spans.size()
                                    ? place(bar, spans[i + 1].start - bar.start, inner, room)
                                    : end;
            symbol(spans[i], x, next - x);
        }
        if (bar.hold > Ticks(0)) draw_fermata(drawing_, {end - 3.5, at(staff_top - 1)});
    }

    /// The chord of the bar before, within a row a copyist writes it once.
    [[nodiscard]] bool goes_on(const chart::FormBar& bar, const chart::Span& span) const {
        if (bar.bar_in_section % bars_a_row == 1 || bar.number == 1) return false;
        return form_.spans_in(bar.number - 1).back().chord == span.chord && bar.kicks.empty();
    }

    void symbol(const chart::Span& span, double x, double room) {
        const auto words = span.chord ? span.chord->symbol() : "N.C.";
        const double width = std::max(1.0, width_in_ems(words)) * symbol_size * scale_;
        const double size =
            symbol_size * scale_ * std::min(1.0, std::max(0.5, (room - 0.8) / width));
        text(x, at(staff_top - 2.6), words, size, Anchor::start, Face::serif_bold);
    }

    void words_above(const BarAsWritten& shown, double x, double end) {
        const double y = at(3.2);
        const double size = small_size * scale_;
        if (shown.begins_section) {
            const auto& name = form_.bar(shown.number).section;
            const double letters = is_letter(name) ? letter_box : name_box;
            const double box = width_in_ems(name) * letters * scale_ + paper_.margin + 4;
            const double sign = shown.segno ? 4 : 0;
            text(std::max(x, box) + sign, y, own_words(form_, shown.number), size, Anchor::start);
        }
        if (shown.segno) draw_segno(drawing_, {std::max(x, paper_.margin + 10) + 1.5, y - 1});
        if (shown.to_coda) {
            draw_to_coda(drawing_, {end, y}, size);
        }
        if (shown.fine) {
            text(end, y, "fine", size, Anchor::end);
        }
        const auto& cue = form_.bar(shown.number).cue;
        if (!cue.empty()) {
            draw_words(drawing_, {x + 2, at(staff_top + staff_gap * 4 + 6)}, cue, size);
        }
        if (shown.begins_coda) draw_coda(drawing_, {x - 3, at(staff_top - 2)});
    }

    double repeat_sign(double x, int side) {
        return draw_repeat(drawing_, x, side, lines(), staff_gap * scale_);
    }

    void close(const BarAsWritten& shown, double end) {
        const bool last = shown.number == form_.whole().to || shown.number == form_.last_bar();
        if (shown.ends_repeat) {
            repeat_sign(end, -1);
            if (shown.times > 2) {
                text(end, at(staff_top - 1), fmt::format("{} times", shown.times),
                     small_size * scale_, Anchor::end);
            }
        } else if (last) {
            draw_final_line(drawing_, end, lines());
        } else if (shown.ends_part) {
            draw_double_line(drawing_, end, lines());
        } else {
            draw_bar_line(drawing_, end, lines());
        }
    }

    void brackets(const PageRow& row, double left, double width) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (row[i].ending.empty()) continue;
            std::size_t to = i + 1;
            while (to < row.size() && row[to].in_ending && row[to].ending.empty()) ++to;
            const double x = left + width * static_cast<double>(i);
            draw_ending(drawing_, {x + 0.4, at(0.6)}, left + width * static_cast<double>(to) - 0.6,
                        row[i].ending, small_size * scale_);
        }
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
    double y_ = 0;
    double scale_ = 1;
};

}  // namespace

std::string lead_sheet_html(const Form& form, Paper paper) {
    const auto size = size_of(paper);
    return page_of(form.chart.title, size,
                   svg_tag(size, size.height) + SheetWriter(form, size).draw() + "</svg>\n");
}

}  // namespace compline::report
