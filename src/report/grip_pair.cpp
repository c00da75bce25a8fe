#include "grip_pair.hpp"

#include "diagram_svg.hpp"
#include "fret_window.hpp"
#include "page_part.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

/// Lengths in its own mm.
std::string captioned(const CaptionedGrip& one, const DiagramSize& size, Hand hand) {
    Drawing drawing;
    draw_diagram(drawing, {0, 0}, size, *one.grip, {}, hand, one.foreign);
    return fmt::format(
        "<div>\n<svg class=\"grip\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" "
        "aria-hidden=\"true\">\n{}</svg>\n<p>{}</p>\n</div>\n",
        svg_number(size.width()), svg_number(size.height()), drawing.markup(),
        escaped(one.caption));
}

}  // namespace

std::string grip_pair(const std::string& what, const CaptionedGrip& left,
                      const CaptionedGrip& right, int strings, Hand hand) {
    DiagramSize size;
    size.strings = strings;
    size.frets = std::max(window_of(left.grip->shape).frets, window_of(right.grip->shape).frets);
    return "<div class=\"pair\">\n" + paragraph_markup("what", what) + "<div class=\"two\">\n" +
           captioned(left, size, hand) + captioned(right, size, hand) + "</div>\n</div>\n";
}

}  // namespace compline::report
