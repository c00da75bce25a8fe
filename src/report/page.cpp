#include "page.hpp"

#include "svg.hpp"

#include <fmt/format.h>

namespace compline::report {

std::string svg_tag(const SheetSize& paper, double height) {
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" "
        "viewBox=\"0 0 {0} {1}\">\n",
        svg_number(paper.width), svg_number(height));
}

std::string page_of(std::string_view title, const SheetSize& paper, std::string_view drawings) {
    return fmt::format(
               "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
               "<title>{}</title>\n<style>\n"
               "@page {{ size: {}mm {}mm; margin: 0; }}\n"
               "body {{ margin: 0; background: #fff; color: #000; }}\n"
               "svg {{ display: block; margin: 0 auto; break-after: page; }}\n"
               "svg:last-child {{ break-after: auto; }}\n"
               "</style>\n</head>\n<body>\n",
               escaped(title), svg_number(paper.width), svg_number(paper.height)) +
           std::string(drawings) + "</body>\n</html>\n";
}

}  // namespace compline::report
