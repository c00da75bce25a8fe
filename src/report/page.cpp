#include "page.hpp"

#include "svg.hpp"

#include <fmt/format.h>

namespace compline::report {

std::string html_file(std::string_view title, For whom, std::string_view style,
                      std::string_view body) {
    // A phone shows a sheet of paper whole, and a page for the screen in its own width.
    const auto* const viewport =
        whom == For::screens
            ? "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
            : "";
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
        "style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\"/>\n"
        "{}<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        viewport, escaped(title), style, body);
}

std::string svg_tag(const SheetSize& paper, double height) {
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" "
        "viewBox=\"0 0 {0} {1}\">\n",
        svg_number(paper.width), svg_number(height));
}

std::string page_of(std::string_view title, const SheetSize& paper, std::string_view drawings) {
    const auto style = fmt::format(
        "@page {{ size: {}mm {}mm; margin: 0; }}\n"
        "body {{ margin: 0; background: #fff; color: #000; }}\n"
        "svg {{ display: block; margin: 0 auto; break-after: page; }}\n"
        "svg:last-child {{ break-after: auto; }}\n",
        svg_number(paper.width), svg_number(paper.height));
    return html_file(title, For::paper, style, drawings);
}

}  // namespace compline::report
