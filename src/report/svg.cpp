#include "svg.hpp"

#include <compline/text/utf8.hpp>

#include <fmt/format.h>

namespace compline::report {

namespace {

// Serifs as on engraved sheets. The named ones have the same widths on every system and are used
// where they are installed; nothing is loaded.
constexpr const char* serifs = "'Times New Roman','Liberation Serif','Nimbus Roman',serif";
constexpr const char* sans = "Arial,Helvetica,'Liberation Sans',sans-serif";

/// What XML has no place for: control characters and its two code points that are none.
bool has_no_place(text::CodePoint c) {
    return !c.valid || text::is_control(c.value) || c.value == 0xFFFE || c.value == 0xFFFF;
}

std::string_view entity(char c) {
    switch (c) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\'':
            return "&#39;";
        default:
            return "";
    }
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string safe;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = text::code_point_at(text, at);
        const auto character = text.substr(at, c.bytes);
        at += c.bytes;
        if (has_no_place(c)) continue;
        const auto name = c.bytes == 1 ? entity(character.front()) : std::string_view();
        safe += name.empty() ? character : name;
    }
    return safe;
}

std::string svg_number(double value) {
    auto text = fmt::format("{:.2f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

std::string text_attributes(Point at, const TextStyle& style) {
    const bool bold = style.face != Face::serif;
    const char* anchor = style.anchor == Anchor::start    ? ""
                         : style.anchor == Anchor::middle ? " text-anchor=\"middle\""
                                                          : " text-anchor=\"end\"";
    return fmt::format(
        "x=\"{}\" y=\"{}\" font-family=\"{}\" font-size=\"{}\"{}{}{}", svg_number(at.x),
        svg_number(at.y), style.face == Face::sans_bold ? sans : serifs, svg_number(style.size),
        bold ? " font-weight=\"bold\"" : "", anchor, style.white ? " fill=\"#fff\"" : "");
}

void Drawing::line(Point from, Point to, double width, bool round) {
    markup_ += fmt::format(
        "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#000\" stroke-width=\"{}\"{}/>\n",
        svg_number(from.x), svg_number(from.y), svg_number(to.x), svg_number(to.y),
        svg_number(width), round ? " stroke-linecap=\"round\"" : "");
}

void Drawing::filled_circle(Point centre, double radius) {
    markup_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", svg_number(centre.x),
                           svg_number(centre.y), svg_number(radius));
}

void Drawing::ring(Point centre, double radius, double width) {
    markup_ += fmt::format(
        "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"#fff\" stroke=\"#000\" "
        "stroke-width=\"{}\"/>\n",
        svg_number(centre.x), svg_number(centre.y), svg_number(radius), svg_number(width));
}

void Drawing::triangle(Point a, Point b, Point c) {
    markup_ += fmt::format("<path d=\"M{} {}L{} {}L{} {}z\"/>\n", svg_number(a.x), svg_number(a.y),
                           svg_number(b.x), svg_number(b.y), svg_number(c.x), svg_number(c.y));
}

void Drawing::text(Point at, std::string_view words, const TextStyle& style) {
    markup_ += fmt::format("<text {}>{}</text>\n", text_attributes(at, style), escaped(words));
}

void Drawing::begin_group(std::string_view name) {
    markup_ += fmt::format("<g class=\"{}\">\n", name);
}

}  // namespace compline::report
