#pragma once

#include "svg.hpp"

#include <compline/guitar/move.hpp>
#include <compline/report/voicings.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// How large diagrams are drawn: lengths in mm, all in proportion.
struct DiagramSize {
    double scale = 1;
    double tallness = 1;  ///< frets are so much farther apart where there is room for it
    int strings = 6;
    int frets = 4;  ///< every diagram of a page shows as many

    [[nodiscard]] double string_gap() const { return 3 * scale; }
    [[nodiscard]] double fret_gap() const { return 4.1 * scale * tallness; }
    [[nodiscard]] double dot() const { return 1.4 * scale; }  ///< its radius
    [[nodiscard]] double grid_width() const { return (strings - 1) * string_gap(); }
    [[nodiscard]] double grid_height() const { return frets * fret_gap(); }
    /// Above the grid: muted and open strings, arrows that come from there.
    [[nodiscard]] double above() const { return 3.2 * scale; }
    [[nodiscard]] double below() const { return 1.6 * scale; }
    /// Beside the grid, where the first fret's number stands.
    [[nodiscard]] double beside() const { return 5.8 * scale; }
    /// On the other side half a dot stands out.
    [[nodiscard]] double width() const { return beside() + grid_width() + dot(); }
    [[nodiscard]] double height() const { return above() + grid_height() + below(); }
};

/// Draws a diagram with its upper left corner at `at`; `move` is what led to the grip: the marks
/// of the guide fingers. On the strings `foreign` a tone stands that is not the chord's: a diamond.
void draw_diagram(Drawing& drawing, Point at, const DiagramSize& size, const guitar::Grip& grip,
                  const guitar::Move& move, Hand hand, const std::vector<int>& foreign = {});

/// A picture of one diagram, for a page: lengths in its own mm, as large as the page gives it.
[[nodiscard]] std::string diagram_alone(const guitar::Grip& grip, const DiagramSize& size,
                                        Hand hand, const std::vector<int>& foreign = {});

/// The marks alone, for the legend: a finger that stays, one that slid there.
void draw_dot(Drawing& drawing, Point centre, double radius, std::string_view finger, bool stays);
void draw_arrow(Drawing& drawing, Point from, Point to, double scale);

}  // namespace compline::report
