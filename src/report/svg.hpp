#pragma once

#include <string>
#include <string_view>

namespace compline::report {

/// Text as it may stand in XML and HTML: markup escaped, control characters and malformed UTF-8
/// left out.
[[nodiscard]] std::string escaped(std::string_view text);

/// A length or a number without needless zeros: 12, 3.25; two decimals at most.
[[nodiscard]] std::string svg_number(double value);

/// A point of a page, in mm from its upper left corner.
struct Point {
    double x = 0;
    double y = 0;
};

enum class Anchor { start, middle, end };
enum class Face { serif, serif_bold, sans_bold };

struct TextStyle {
    double size = 4;  ///< mm
    Anchor anchor = Anchor::start;
    Face face = Face::serif;
    bool white = false;
};

/// What is drawn on a page, black on white, lengths in mm.
class Drawing {
  public:
    void line(Point from, Point to, double width, bool round = false);
    void filled_circle(Point centre, double radius);
    /// White inside.
    void ring(Point centre, double radius, double width);
    void triangle(Point a, Point b, Point c);
    void text(Point at, std::string_view words, const TextStyle& style);
    /// Markup made by others: already escaped.
    void raw(std::string_view markup) { markup_ += markup; }
    void begin_group(std::string_view name);
    void end_group() { markup_ += "</g>\n"; }
    [[nodiscard]] const std::string& markup() const { return markup_; }

  private:
    std::string markup_;
};

/// The attributes of a text in this style: font, size, anchor.
[[nodiscard]] std::string text_attributes(Point at, const TextStyle& style);

}  // namespace compline::report
