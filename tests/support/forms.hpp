#pragma once

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

namespace compline::tests {

/// A form without a chart file: one string a bar, as a chart has it ("F7", "Gm7 C7", "F6 / D7! /",
/// "%"). One section, A. Key of C, swing `auto`.
chart::Form make_form(time::Meter meter, time::Bpm tempo, const std::vector<std::string>& bars);

/// So many bars in which nothing is written.
chart::Form bare_bars(int bars, time::Meter meter = time::Meter(4));

/// The same form, key, roots and slash basses `semitones` higher (spelled somehow: for what is
/// played, not for what is printed).
chart::Form transposed(chart::Form form, int semitones);

}  // namespace compline::tests
