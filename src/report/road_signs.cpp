#include "road_signs.hpp"

#include <fmt/format.h>

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

}  // namespace compline::report
