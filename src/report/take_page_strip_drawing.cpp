#include "take_page_strip_drawing.hpp"

#include "picture.hpp"
#include "take_page_signs.hpp"
#include "text_width.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using practice::PlaceFault;
using practice::PlaceFigures;

constexpr double number_room = 40;  ///< of three digits
constexpr double y_of_beat = head_height + half_height;

class StripPainter {
  public:
    explicit StripPainter(const StripLayout& layout) : layout_(layout) {}

    [[nodiscard]] std::string piece(int from) const {
        Picture picture(piece_width, layout_.height());
        const int to = std::min(from + bars_a_piece - 1, layout_.reach().to);
        const double width = layout_.x_of(from, to, 0) + bar_width;
        ground(picture, width);
        for (int number = from; number <= to; ++number) bar_line(picture, from, number);
        each_place(from, to, [&](double x, const PlaceKey&, const PlaceFigures& figures) {
            marks(picture, x, figures);
        });
        // Over the marks beside them.
        each_place(from, to, [&](double x, const PlaceKey& where, const PlaceFigures& figures) {
            number(picture, x, where, figures);
        });
        const double y = head_height + 2 * half_height + label_size;
        for (const auto& label : layout_.labels(from)) {
            picture.words({label.x, y + label.row * chord_height}, label.symbol, "chord");
        }
        return picture.svg("piece");
    }

  private:
    using PlaceKey = StripLayout::PlaceKey;

    template <typename Draw>
    void each_place(int from, int to, Draw draw) const {
        constexpr double in_from_line = 13;
        for (const auto& [where, place] : layout_.places()) {
            if (where.first < from || where.first > to) continue;
            const double beats = where.second.from_bar_line().count();
            draw(layout_.x_of(from, where.first, beats) + in_from_line, where, place.figures);
        }
    }

    void ground(Picture& picture, double width) const {
        const auto& own = layout_.report().assessment.own_place.on_beats;
        const double place = own ? own->milliseconds() : 0;
        const double room = layout_.report().tolerance().milliseconds();
        const double y = y_of_beat;
        const double top = layout_.height_of(room - std::min(place, 0.0));
        const double bottom = layout_.height_of(room + std::max(place, 0.0));
        picture.box({0, y - top, width, top + bottom}, "band");
        picture.line({0, y}, {width, y}, "beat");
    }

    void bar_line(Picture& picture, int from, int number) const {
        const double x = layout_.x_of(from, number, 0) + 1;
        const double bottom = head_height + 2 * half_height;
        picture.line({x, head_height}, {x, bottom}, "barline");
        const auto& here = layout_.report().map.form().bar(number);
        if (number == from) picture.words({x, label_size}, std::to_string(number), "number");
        if (here.bar_in_section != 1) return;
        const double beside = number == from ? number < 10 ? 22 : number < 100 ? 36 : 50 : 0;
        const double room = (bar_width * 2 - beside) / label_size;
        picture.words({x + beside, label_size}, fitting(here.section, room), "letter");
    }

    void marks(Picture& picture, double x, const PlaceFigures& figures) const {
        const double y = y_of_beat;
        if (const auto late = figures.late_ms()) {
            const double width = width_of(figures, PlaceFault::late);
            picture.box({x - width / 2, y, width, layout_.height_of(*late)}, "late");
        }
        if (const auto early = figures.early_ms()) {
            const double width = width_of(figures, PlaceFault::early);
            const double height = layout_.height_of(*early);
            picture.box({x - width / 2, y - height, width, height}, "early");
        }
        draw_signs(picture, {x, y}, half_height, figures);
    }

    /// Beside the end of its bar, on the left where the right is taken; of what is late and early
    /// by turns, the late one's.
    void number(Picture& picture, double x, const PlaceKey& where,
                const PlaceFigures& figures) const {
        if (!layout_.has_number(where)) return;
        const auto late = figures.late_ms();
        const double ms = late ? *late : *figures.early_ms();
        const double beside =
            width_of(figures, late ? PlaceFault::late : PlaceFault::early) / 2 + 4;
        const double y =
            y_of_beat + (late ? layout_.height_of(ms) - 1 : 15 - layout_.height_of(ms));
        const bool on_right = !is_followed(where) && x + beside + number_room < piece_width;
        picture.words({on_right ? x + beside : x - beside, y}, fmt::format("{:.0f}", ms),
                      on_right ? "ms" : "ms end");
    }

    /// Another mark comes in the same bar.
    [[nodiscard]] bool is_followed(const PlaceKey& where) const {
        const auto next = layout_.places().upper_bound(where);
        return next != layout_.places().end() && next->first.first == where.first &&
               (next->second.figures.late_ms() || next->second.figures.early_ms());
    }

    [[nodiscard]] static double width_of(const PlaceFigures& figures, PlaceFault fault) {
        return 4 + 14.0 * figures.count(fault) / std::max(1, figures.of);
    }

    const StripLayout& layout_;
};

}  // namespace

std::string strip_pieces(const StripLayout& layout) {
    const StripPainter painter(layout);
    std::string markup;
    for (int from = layout.reach().from; from <= layout.reach().to; from += bars_a_piece) {
        markup += painter.piece(from);
    }
    return markup;
}

}  // namespace compline::report
