#pragma once

#include "guitar_options.hpp"

#include <compline/chart/form.hpp>
#include <compline/practice/report.hpp>

#include <string>

namespace compline::app {

/// A take judged by a chart's form, of which grips are to be taken. What is typed of the guitar
/// counts, else what the take says. Throws BadInput, also where its frets are not known or it was
/// played in another key.
[[nodiscard]] practice::Report judged_for_grips(const std::string& take, const std::string& chart,
                                                const chart::Form& form,
                                                const GuitarOptions& guitar);

/// Pins the grips of a take in a form, wherever the chart has another wish too, and says what was
/// kept and what left out.
void pin_played_grips(const practice::Report& report, chart::Passage passage,
                      harmony::Strictness strictness, chart::Form& form);

}  // namespace compline::app
