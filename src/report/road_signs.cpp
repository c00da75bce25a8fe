#include "road_signs.hpp"

#include <fmt/format.h>

#include <string>

namespace compline::report {

void draw_segno(Drawing& drawing, Point at) {
    drawing.raw(fmt::format(
        "<path d=\"M {0} {1} m 1 -1.2 c -0.8 -0.9 -2 -0.3 -1.4 0.6 c 0.5 0.7 1.5 0.7 1.6 1.6 "
        "c 0 0.9 -1.3 1 -1.8 0.2\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.5\"/>\n",
        svg_number(at.x), svg_number(at.y)));
    drawing.line({at.x - 1, at.y + 1.4}, {at.x + 1.6, at.y - 1.6}, 0.3);
    drawing.filled_circle({at.x - 0.9, at.y - 0.2}, 0.28);
    drawing.filled_circle({at.x + 1.5, at.y + 0.2}, 0.28);
}

void draw_coda(Drawing& drawing, Point at) {
    drawing.ring(at, 1.1, 0.45);
    drawing.line({at.x - 1.7, at.y}, {at.x + 1.7, at.y}, 0.3);
    drawing.line({at.x, at.y - 1.7}, {at.x, at.y + 1.7}, 0.3);
}

void draw_fermata(Drawing& drawing, Point at) {
    drawing.raw(
        fmt::format("<path d=\"M {} {} a 1.7 1.7 0 0 1 3.4 0\" fill=\"none\" stroke=\"#000\" "
                    "stroke-width=\"0.4\"/>\n",
                    svg_number(at.x - 1.7), svg_number(at.y)));
    drawing.filled_circle({at.x, at.y - 0.4}, 0.35);
}

void draw_accent(Drawing& drawing, Point at, double scale) {
    const double half = 0.8 * scale;
    drawing.line({at.x - half, at.y - half}, {at.x + half, at.y}, 0.35);
    drawing.line({at.x + half, at.y}, {at.x - half, at.y + half}, 0.35);
}

void draw_bar_line(Drawing& drawing, double x, const BarLines& lines, double width) {
    drawing.line({x, lines.top}, {x, lines.foot}, width);
}

void draw_double_line(Drawing& drawing, double end, const BarLines& lines) {
    draw_bar_line(drawing, end, lines);
    draw_bar_line(drawing, end - 0.9, lines);
}

void draw_final_line(Drawing& drawing, double end, const BarLines& lines) {
    draw_bar_line(drawing, end - heavy_line / 2, lines, heavy_line);
    draw_bar_line(drawing, end - heavy_line - 0.9, lines);
}

double draw_repeat(Drawing& drawing, double x, int side, const BarLines& lines, double apart) {
    draw_bar_line(drawing, x + side * heavy_line / 2, lines, heavy_line);
    draw_bar_line(drawing, x + side * (heavy_line + 0.8), lines);
    const double middle = (lines.top + lines.foot) / 2;
    for (const double y : {middle - apart / 2, middle + apart / 2}) {
        drawing.filled_circle({x + side * (heavy_line + 1.8), y}, 0.4);
    }
    return x + side * repeat_width;
}

void draw_ending(Drawing& drawing, Point from, double to, std::string_view words, double size) {
    if (!words.empty()) drawing.line({from.x, from.y + 3}, from, 0.3);
    drawing.line(from, {to, from.y}, 0.3);
    if (words.empty()) return;
    draw_words(drawing, {from.x + 0.8, from.y + 2.8}, words, size);
}

void draw_to_coda(Drawing& drawing, Point right, double size) {
    draw_words(drawing, {right.x - 4, right.y}, "to coda", size, Anchor::end);
    draw_coda(drawing, {right.x - 1.8, right.y - 1});
}

double draw_meter(Drawing& drawing, double x, const BarLines& lines, const time::Meter& meter,
                  double size) {
    const auto written = meter.written();
    const TextStyle style{size, Anchor::start, Face::serif_bold, false};
    drawing.text({x, lines.top}, std::to_string(written.above), style);
    drawing.text({x, lines.foot}, std::to_string(written.below), style);
    return x + meter_width(meter, size);
}

double meter_width(const time::Meter& meter, double size) {
    return size * (meter.written().above > 9 ? 1.2 : 0.7);
}

void draw_words(Drawing& drawing, Point at, std::string_view words, double size, Anchor anchor) {
    drawing.text(at, words, {size, anchor, Face::serif, false});
}

}  // namespace compline::report
