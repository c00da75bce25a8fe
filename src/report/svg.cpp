#include "svg.hpp"

#include <fmt/format.h>

namespace compline::report {

namespace {

// Serifs as on engraved sheets. The named ones have the same widths on every system and are used
// where they are installed; nothing is loaded.
constexpr const char* serifs = "'Times New Roman','Liberation Serif','Nimbus Roman',serif";
constexpr const char* sans = "Arial,Helvetica,'Liberation Sans',sans-serif";

/// Bytes of the well-formed UTF-8 character at the start of `text`, 0 where there is none.
std::size_t character_bytes(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    if (lead < 0x80) return 1;
    const std::size_t bytes = lead < 0xC2   ? 0
                              : lead < 0xE0 ? 2
                              : lead < 0xF0 ? 3
                              : lead < 0xF5 ? 4
                                            : 0;
    if (bytes == 0 || bytes > text.size()) return 0;
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80) return 0;
    }
    return bytes;
}

/// C0, DEL, C1, and the two code points that XML does not know.
bool is_control(std::string_view character) {
    const auto first = static_cast<unsigned char>(character.front());
    if (first < 0x20 || first == 0x7F) return true;
    if (first == 0xC2) return static_cast<unsigned char>(character[1]) < 0xA0;
    return character == "\xEF\xBF\xBE" || character == "\xEF\xBF\xBF";
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
    while (!text.empty()) {
        const auto bytes = character_bytes(text);
        const auto character = text.substr(0, bytes);
        text.remove_prefix(bytes == 0 ? 1 : bytes);
        if (bytes == 0 || is_control(character)) continue;
        const auto name = bytes == 1 ? entity(character.front()) : std::string_view();
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
