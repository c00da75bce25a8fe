#pragma once

#include <compline/report/now_playing.hpp>

#include <deque>
#include <string>
#include <vector>

namespace compline::report {

// Where we are, to be read standing, with the screen on a stool two metres off: at a glance of a
// fifth of a second the eye finds one thing, and always at the same place.
//
//       ██████                ██████████       the chord that sounds, as large as there is room
//     ██      ██                      ██
//     ██          ████  ██          ██
//     ██  ██████  ██  ██  ██      ██
//     ██      ██  ██  ██  ██      ██
//     ██      ██  ██  ██  ██    ██
//       ██████    ██  ██  ██    ██
//     ▄▄▄▄▄▄▄▄▄ █████████ █▄▄▄▄▄▄▄▄ ▄▄▄▄▄▄▄▄▄▄     it is 2, and something comes on 3:
//                         ▄▀▀▀▄ ▀▀▀▀█
//                         █       ▄▀
//                         █   ▄  ▄▀
//                          ▀▀▀   ▀
//     A   1st of 3   bar 3 of 12   132 bpm
//     1st time through: 15 changes, 13 in time
//
// The beats are blocks across the window, as many as the meter has; the one that is now is full.
// The next other chord stands below them and is smaller: below its beat where it comes in this bar
// (that block has an edge), at the left where it comes later. In the count-in the count is large.
// What is unlike a plain time through (a pause, silence, who lays out, a loop) stands large beside
// the next chord where there is room, and in words below. The newest messages have the last lines.
//
// With voicings the grip to hold is at the right, with its fingers, or its shape stands below in
// digits; it moves on half a beat ahead, as the hand does.
//
// The letters are our own, in pixels, scaled by whole factors: a pixel is half a line high and a
// column wide, drawn by ▀ ▄ █. No colour and no attribute is needed to read it.

/// The display at a position, as many lines as the window has. `messages`: what was printed, the
/// newest last. In a window too small for it (under 11 lines or 24 columns) a line in words stands
/// for what is large: "Cm7, F7 on 3".
[[nodiscard]] std::vector<std::string> large_view(const ChartRows& rows, const Playing& playing,
                                                  time::Ticks position,
                                                  const std::deque<std::string>& messages);

/// The lines of messages that a window of that height shows.
[[nodiscard]] int message_lines(int window_lines);

}  // namespace compline::report
