#include "grip_pair.hpp"

#include "diagram_svg.hpp"
#include "fret_window.hpp"
#include "page_part.hpp"

#include <algorithm>

namespace compline::report {

namespace {

std::string captioned(const CaptionedGrip& one, const DiagramSize& size, Hand hand) {
    return "<div>\n" + diagram_alone(*one.grip, size, hand, one.foreign) + "<p>" +
           escaped(one.caption) + "</p>\n</div>\n";
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
