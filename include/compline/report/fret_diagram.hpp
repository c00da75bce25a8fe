#pragma once

#include <compline/guitar/grip.hpp>

#include <string>
#include <vector>

namespace compline::report {

// A grip as books draw it, upright, the lowest string on the left, the frets downwards:
//
//       x x         x
//       ┌─┬─┬─┬─┬─┐
//     5 │ │ 1━━━1 │
//       │ │ │ 2 │ │
//       │ │ │ │ │ │
//       │ │ │ │ │ │
//
// x over a string that is muted, o over one that sounds open; the fingers stand where they press,
// joined where one of them lies across strings (● where no finger is known). The number at the side
// is the first fret's; the first frets hang from the nut, a double line.

/// Which way round diagrams are drawn: as a left-handed player sees the neck, the low string is on
/// the right.
enum class Hand { right, left };

/// Columns of each line, for a guitar of so many strings.
[[nodiscard]] constexpr int fret_diagram_columns(int strings) { return 3 + 2 * strings - 1; }

/// `frets`: how many are shown, more where the grip needs them (a hand spans five). A line each,
/// and two above for the signs and the edge.
[[nodiscard]] std::vector<std::string> fret_diagram(const guitar::Grip& grip, int frets = 4,
                                                    Hand hand = Hand::right);

}  // namespace compline::report
