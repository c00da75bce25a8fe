#pragma once

#include "svg.hpp"

#include <compline/time/meter.hpp>

#include <string_view>

namespace compline::report {

// The signs of a lead sheet that no font can be trusted to have, each around a point.

void draw_segno(Drawing& drawing, Point at);
void draw_coda(Drawing& drawing, Point at);
void draw_fermata(Drawing& drawing, Point at);
void draw_accent(Drawing& drawing, Point at, double scale);

// What stands at bar lines and over bars, on the lead sheet as on the page of voicings.

constexpr double thin_line = 0.25;
constexpr double heavy_line = 0.9;

/// Between what heights a row's bar lines run.
struct BarLines {
    double top = 0;
    double foot = 0;
};

void draw_bar_line(Drawing& drawing, double x, const BarLines& lines, double width = thin_line);
/// Behind a section, or behind all.
void draw_double_line(Drawing& drawing, double end, const BarLines& lines);
void draw_final_line(Drawing& drawing, double end, const BarLines& lines);
/// Heavy and thin, and two dots so far apart; `side` 1: before what comes again, -1: behind it.
/// Gives where it ends.
double draw_repeat(Drawing& drawing, double x, int side, const BarLines& lines, double apart);
/// How wide it is.
constexpr double repeat_width = heavy_line + 2.4;
/// The bracket over an ending, from its upper left corner on, with its number; without one it goes
/// on from the row before.
void draw_ending(Drawing& drawing, Point from, double to, std::string_view words, double size);
void draw_to_coda(Drawing& drawing, Point right, double size);
/// One number over the other, on these base lines; gives where it ends.
double draw_meter(Drawing& drawing, double x, const BarLines& lines, const time::Meter& meter,
                  double size);
[[nodiscard]] double meter_width(const time::Meter& meter, double size);
/// Cues and what is a section's own.
void draw_words(Drawing& drawing, Point at, std::string_view words, double size,
                Anchor anchor = Anchor::start);

}  // namespace compline::report
