#include "diagram_svg.hpp"

#include "fret_window.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::report {

namespace {

using guitar::Act;
using guitar::Finger;

constexpr double thin = 0.2;  ///< strings and frets

class Diagram {
  public:
    Diagram(Drawing& drawing, Point at, const DiagramSize& size, const guitar::Grip& grip,
            Hand hand)
        : drawing_(drawing), size_(size), grip_(grip), window_(window_of(grip.shape)), hand_(hand) {
        left_ = at.x + (hand == Hand::right ? size.beside() : size.dot());
        top_ = at.y + size.above();
    }

    void grid() {
        const double right = left_ + size_.grid_width();
        const double bottom = top_ + size_.grid_height();
        for (int i = 0; i < size_.strings; ++i) {
            const double x = left_ + i * size_.string_gap();
            drawing_.line({x, top_}, {x, bottom}, thin * size_.scale);
        }
        for (int i = 0; i <= size_.frets; ++i) {
            const double y = top_ + i * size_.fret_gap();
            drawing_.line({left_ - thin / 2, y}, {right + thin / 2, y}, thin * size_.scale);
        }
        const double nut = 0.8 * size_.scale;
        if (window_.at_nut()) {
            const double y = top_ - nut / 2 + thin / 2;
            drawing_.line({left_ - thin / 2, y}, {right + thin / 2, y}, nut);
        }
    }

    void fret_number() {
        if (window_.at_nut()) return;
        const double size = 3.4 * size_.scale;
        const double gap = 2.4 * size_.scale;
        const double y = y_of(window_.first) + 0.35 * size;
        const bool on_left = hand_ == Hand::right;
        const double x = on_left ? left_ - gap : left_ + size_.grid_width() + gap;
        drawing_.text({x, y}, std::to_string(window_.first),
                      {size, on_left ? Anchor::end : Anchor::start, Face::serif, false});
    }

    void marks() {
        for (int string = 1; string <= size_.strings; ++string) {
            const auto& fret = grip_.shape.on(string);
            const Point at{x_of(string), top_ - 1.75 * size_.scale};
            if (!fret) cross(at);
            if (fret == 0) drawing_.ring(at, 0.75 * size_.scale, 0.25 * size_.scale);
        }
    }

    /// A finger that slid here: an arrow from where it was; its tail ends at the diagram's edge
    /// where that was farther away.
    void arrow(const guitar::FingerMove& move) {
        const auto hold = grip_.hold(move.finger);
        if (!hold || move.act != Act::slides) return;
        const double x = x_of(move.to_string);
        const double to = y_of(hold->fret);
        const double side = move.frets > 0 ? -1 : 1;
        const double from = std::clamp(y_of(hold->fret - move.frets), top_ - 0.9 * size_.above(),
                                       top_ + size_.grid_height() + size_.below());
        draw_arrow(drawing_, {x, from}, {x, to + side * size_.dot()}, size_.scale);
    }

    void barre(const guitar::Grip::Hold& hold) {
        if (!hold.is_barre()) return;
        const double y = y_of(hold.fret);
        drawing_.line({x_of(hold.low), y}, {x_of(hold.high), y}, 1.1 * size_.scale);
    }

    void dots(const guitar::Move& move, const std::vector<int>& foreign) {
        for (const auto& place : grip_.shape.places()) {
            if (std::find(foreign.begin(), foreign.end(), place.string) != foreign.end()) {
                diamond(place);
                continue;
            }
            if (place.fret == 0) continue;
            const auto finger = grip_.on(place.string);
            draw_dot(drawing_, {x_of(place.string), y_of(place.fret)}, size_.dot(), name_of(finger),
                     stays(move, finger));
        }
    }

  private:
    /// Over the nut where the string is open.
    void diamond(const guitar::StringAndFret& place) {
        const double arm = 1.35 * size_.dot();
        const double x = x_of(place.string);
        const double y = place.fret == 0 ? top_ - 1.75 * size_.scale : y_of(place.fret);
        drawing_.triangle({x - arm, y}, {x, y - arm}, {x + arm, y});
        drawing_.triangle({x - arm, y}, {x, y + arm}, {x + arm, y});
    }
    static bool stays(const guitar::Move& move, Finger finger) {
        return std::any_of(move.fingers.begin(), move.fingers.end(), [&](const auto& one) {
            return one.finger == finger && one.act == Act::stays;
        });
    }
    void cross(Point at) {
        const double arm = 0.75 * size_.scale;
        const double width = 0.28 * size_.scale;
        drawing_.line({at.x - arm, at.y - arm}, {at.x + arm, at.y + arm}, width);
        drawing_.line({at.x - arm, at.y + arm}, {at.x + arm, at.y - arm}, width);
    }
    [[nodiscard]] double x_of(int string) const {
        const int from_left = hand_ == Hand::right ? size_.strings - string : string - 1;
        return left_ + from_left * size_.string_gap();
    }
    /// The middle of a fret.
    [[nodiscard]] double y_of(int fret) const {
        return top_ + (fret - window_.first + 0.5) * size_.fret_gap();
    }

    Drawing& drawing_;
    const DiagramSize& size_;
    const guitar::Grip& grip_;
    FretWindow window_;
    Hand hand_;
    double left_ = 0;
    double top_ = 0;
};

}  // namespace

void draw_dot(Drawing& drawing, Point centre, double radius, std::string_view finger, bool stays) {
    if (stays) {
        const double width = 0.22 * radius;
        drawing.ring(centre, radius - width / 2, width);
    } else {
        drawing.filled_circle(centre, radius);
    }
    const double size = 1.95 * radius;
    drawing.text({centre.x, centre.y + 0.36 * size}, finger,
                 {size, Anchor::middle, Face::sans_bold, !stays});
}

void draw_arrow(Drawing& drawing, Point from, Point to, double scale) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length == 0) return;
    const Point along{(to.x - from.x) / length, (to.y - from.y) / length};
    const double head = std::min(1.5 * scale, length);
    const double wing = 0.85 * scale;
    const Point neck{to.x - head * along.x, to.y - head * along.y};
    drawing.line(from, neck, 0.5 * scale);
    drawing.triangle(to, {neck.x - wing * along.y, neck.y + wing * along.x},
                     {neck.x + wing * along.y, neck.y - wing * along.x});
}

void draw_diagram(Drawing& drawing, Point at, const DiagramSize& size, const guitar::Grip& grip,
                  const guitar::Move& move, Hand hand, const std::vector<int>& foreign) {
    Diagram diagram(drawing, at, size, grip, hand);
    drawing.begin_group("diagram");
    diagram.grid();
    diagram.fret_number();
    diagram.marks();
    for (const auto& finger : move.fingers) diagram.arrow(finger);
    for (const auto& hold : grip.holds()) diagram.barre(hold);
    diagram.dots(move, foreign);
    drawing.end_group();
}

std::string diagram_alone(const guitar::Grip& grip, const DiagramSize& size, Hand hand,
                          const std::vector<int>& foreign) {
    Drawing drawing;
    draw_diagram(drawing, {0, 0}, size, grip, {}, hand, foreign);
    return fmt::format(
        "<svg class=\"grip\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" "
        "aria-hidden=\"true\">\n{}</svg>\n",
        svg_number(size.width()), svg_number(size.height()), drawing.markup());
}

}  // namespace compline::report
