#include "picture.hpp"

#include <fmt/format.h>

namespace compline::report {

void Picture::path(const std::string& d, std::string_view what) {
    shapes_ += fmt::format("<path class=\"{}\" d=\"{}\"/>\n", what, d);
}

void Picture::box(const Box& box, std::string_view what) { boxes({box}, what); }

void Picture::boxes(const std::vector<Box>& boxes, std::string_view what) {
    std::string d;
    for (const auto& box : boxes) {
        d += fmt::format("M{} {}h{}v{}h-{}z", svg_number(box.x), svg_number(box.y),
                         svg_number(box.width), svg_number(box.height), svg_number(box.width));
    }
    if (!d.empty()) path(d, what);
}

void Picture::line(Point from, Point to, std::string_view what) {
    path(fmt::format("M{} {}L{} {}", svg_number(from.x), svg_number(from.y), svg_number(to.x),
                     svg_number(to.y)),
         what);
}

void Picture::cross(Point centre, double arm, std::string_view what) {
    const auto across = svg_number(2 * arm);
    path(fmt::format("M{0} {1}l{2} {2}m0 -{2}l-{2} {2}", svg_number(centre.x - arm),
                     svg_number(centre.y - arm), across),
         what);
}

void Picture::diamond(Point centre, double arm, std::string_view what) {
    const auto side = svg_number(arm);
    path(fmt::format("M{0} {1}l{2} {2}l-{2} {2}l-{2} -{2}z", svg_number(centre.x),
                     svg_number(centre.y - arm), side),
         what);
}

void Picture::wedge(Point centre, double arm, std::string_view what) {
    path(fmt::format("M{} {}h{}l-{} {}z", svg_number(centre.x - arm), svg_number(centre.y - arm),
                     svg_number(2 * arm), svg_number(arm), svg_number(1.8 * arm)),
         what);
}

void Picture::ring(Point centre, double radius, std::string_view what) {
    shapes_ += fmt::format("<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", what,
                           svg_number(centre.x), svg_number(centre.y), svg_number(radius));
}

void Picture::words(Point at, std::string_view words, std::string_view what) {
    shapes_ += fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\">{}</text>\n", what,
                           svg_number(at.x), svg_number(at.y), escaped(words));
}

std::string Picture::svg(std::string_view name) const {
    return fmt::format(
        "<svg class=\"{}\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" "
        "preserveAspectRatio=\"xMinYMid meet\" aria-hidden=\"true\">\n{}</svg>\n",
        name, svg_number(width_), svg_number(height_), shapes_);
}

}  // namespace compline::report
