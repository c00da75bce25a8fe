#pragma once

#include "svg.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

/// A part of a picture, from its upper left corner.
struct Box {
    double x = 0;
    double y = 0;
    double width = 0;
    double height = 0;
};

/// A picture for a page: shapes named by what they mean, which the page's style colours by day, by
/// night and on paper. Lengths are its own; on a desk one is about a pixel, so that words are 20
/// high or more, which is what can be read at a metre. Not for screen readers: words and a table
/// stand beside it.
class Picture {
  public:
    Picture(double width, double height) : width_(width), height_(height) {}

    // `what`: the name that the style knows it by.

    void box(const Box& box, std::string_view what);
    void line(Point from, Point to, std::string_view what);
    void cross(Point centre, double arm, std::string_view what);
    void diamond(Point centre, double arm, std::string_view what);
    void ring(Point centre, double radius, std::string_view what);
    /// Its tip below.
    void wedge(Point centre, double arm, std::string_view what);
    /// Boxes of one kind together: they take a third of the room.
    void boxes(const std::vector<Box>& boxes, std::string_view what);
    void words(Point at, std::string_view words, std::string_view what);
    /// Markup made by others: already escaped.
    void raw(std::string_view markup) { shapes_ += markup; }

    /// `name`: of its kind.
    [[nodiscard]] std::string svg(std::string_view name) const;

  private:
    void path(const std::string& d, std::string_view what);

    double width_;
    double height_;
    std::string shapes_;
};

}  // namespace compline::report
