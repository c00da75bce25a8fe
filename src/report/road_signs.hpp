#pragma once

#include "svg.hpp"

namespace compline::report {

// The signs of a lead sheet that no font can be trusted to have, each around a point.

void draw_segno(Drawing& drawing, Point at);
void draw_coda(Drawing& drawing, Point at);
void draw_fermata(Drawing& drawing, Point at);
void draw_accent(Drawing& drawing, Point at, double scale);

}  // namespace compline::report
