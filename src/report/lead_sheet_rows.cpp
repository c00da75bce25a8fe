#include "lead_sheet_rows.hpp"

#include "road_signs.hpp"
#include "text_width.hpp"

#include <algorithm>
#include <string>

namespace compline::report {

namespace {

using chart::Form;
using time::Ticks;

constexpr double symbol_size = 5.4;

class StaffDrawer {
  public:
    StaffDrawer(Drawing& drawing, const Form& form, const StaffPlace& at)
        : drawing_(drawing), form_(form), at_(at) {}

    void draw(const StaffRow& row) {
        for (int n = 0; n < 5; ++n) {
            const double y = at_.at(staff_top + staff_gap * n);
            drawing_.line({at_.bar_line(0), y}, {at_.bar_line(row.size()), y}, thin_line);
        }
        text({at_.bar_line(0) - 1.5, lines().foot}, std::to_string(row.front().number),
             {small_size * at_.scale, Anchor::end, Face::serif, false});
        draw_bar_line(drawing_, at_.bar_line(0), lines());
        for (std::size_t i = 0; i < row.size(); ++i) draw(row[i], i);
    }

  private:
    [[nodiscard]] BarLines lines() const { return {at_.at(staff_top), at_.at(staff_foot)}; }

    void text(Point at, const std::string& words, const TextStyle& style) {
        drawing_.text(at, words, style);
    }

    void draw(const BarAsWritten& shown, std::size_t in_row) {
        const auto& bar = form_.bar(shown.number);
        const double x = at_.bar_line(in_row);
        const double end = at_.bar_line(in_row + 1);
        double inner = x + 2;
        if (begins_meter(bar)) inner = meter(x + 1.2, bar.meter) + 1.2;
        if (shown.begins_repeat) {
            inner = repeat_sign(begins_meter(bar) ? inner : x, 1) + 1;
        }
        const double room = end - inner - (shown.ends_repeat ? 3 : 1);
        slashes(bar, inner, room);
        const bool goes_on = in_row > 0 && begins_as_before(bar);
        symbols(bar, inner, room, end, goes_on);
        close(shown, end);
    }

    /// At the beginning, and where it changes.
    [[nodiscard]] bool begins_meter(const chart::FormBar& bar) const {
        return bar.number == 1 || form_.bar(bar.number - 1).meter.written() != bar.meter.written();
    }

    double meter(double x, time::Meter of) {
        const BarLines feet{at_.at(staff_top + staff_gap * 2 - 0.2), lines().foot};
        return draw_meter(drawing_, x, feet, of, 5 * at_.scale);
    }

    [[nodiscard]] static double place(const chart::FormBar& bar, Ticks in_bar, double inner,
                                      double room) {
        return inner + room * static_cast<double>(in_bar.count()) /
                           static_cast<double>(bar.meter.bar().count());
    }

    /// One a beat as the meter is written; kicks are accents below them.
    void slashes(const chart::FormBar& bar, double inner, double room) {
        const double middle = at_.at(staff_top + staff_gap * 2);
        const double half = staff_gap * 1.1 * at_.scale;
        const auto beat = bar.meter.is_compound() ? bar.meter.beat() : time::quarter_note;
        for (Ticks in; in < bar.meter.bar(); in += beat) {
            const double x = place(bar, in, inner, room) + 1.2;
            drawing_.line({x - half * 0.7, middle + half}, {x + half * 0.7, middle - half},
                          0.8 * at_.scale);
        }
        const double below = at_.at(staff_foot + 2.4);
        for (const auto kick : bar.kicks) {
            draw_accent(drawing_, {place(bar, kick, inner, room) + 1.2, below}, at_.scale);
        }
    }

    void symbols(const chart::FormBar& bar, double inner, double room, double end, bool goes_on) {
        const auto spans = form_.spans_in(bar.number);
        for (std::size_t i = goes_on ? 1 : 0; i < spans.size(); ++i) {
            const double x = place(bar, spans[i].start - bar.start, inner, room);
            const double next = i + 1 < spans.size()
                                    ? place(bar, spans[i + 1].start - bar.start, inner, room)
                                    : end;
            symbol(spans[i], x, next - x);
        }
        if (bar.hold > Ticks(0)) draw_fermata(drawing_, {end - 3.5, at_.at(staff_top - 1)});
    }

    /// The chord of the bar before, within a row a copyist writes it once.
    [[nodiscard]] bool begins_as_before(const chart::FormBar& bar) const {
        const auto& before = form_.spans_in(bar.number - 1).back();
        const auto& now = form_.spans_in(bar.number).front();
        return before.chord == now.chord && before.optional == now.optional && bar.kicks.empty();
    }

    void symbol(const chart::Span& span, double x, double room) {
        auto words = span.chord ? span.chord->symbol() : "N.C.";
        if (span.optional) words = "(" + words + ")";
        const double width = std::max(1.0, width_in_ems(words)) * symbol_size * at_.scale;
        const double size =
            symbol_size * at_.scale * std::min(1.0, std::max(0.5, (room - 0.8) / width));
        text({x, at_.at(staff_top - 2.6)}, words, {size, Anchor::start, Face::serif_bold, false});
    }

    double repeat_sign(double x, int side) {
        return draw_repeat(drawing_, x, side, lines(), staff_gap * at_.scale);
    }

    void close(const BarAsWritten& shown, double end) {
        const bool last = shown.number == form_.whole().to || shown.number == form_.last_bar();
        if (shown.ends_repeat) {
            repeat_sign(end, -1);
        } else if (last) {
            draw_final_line(drawing_, end, lines());
        } else if (shown.ends_part) {
            draw_double_line(drawing_, end, lines());
        } else {
            draw_bar_line(drawing_, end, lines());
        }
    }

    Drawing& drawing_;
    const Form& form_;
    const StaffPlace& at_;
};

}  // namespace

std::vector<StaffRow> staff_rows(const Form& form) {
    std::vector<StaffRow> rows;
    bool has_ending = false;
    for (const auto& bar : as_written(form)) {
        const bool again = !bar.ending.empty() && has_ending;
        if (bar.begins_section) has_ending = false;
        if (!bar.ending.empty()) has_ending = true;
        const bool full = !rows.empty() && rows.back().size() == bars_a_staff;
        if (rows.empty() || full || bar.begins_section || again) rows.emplace_back();
        rows.back().push_back(bar);
    }
    return rows;
}

void draw_staff(Drawing& drawing, const Form& form, const StaffRow& row, const StaffPlace& place) {
    StaffDrawer(drawing, form, place).draw(row);
}

}  // namespace compline::report
