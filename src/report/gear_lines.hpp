#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// Where the band stood beside the beat, what was left out of the MIDI pickup, how the machine bore
/// up. A line each, those there is nothing to say of left out.
[[nodiscard]] std::string gear_lines(const practice::Report& report);

}  // namespace compline::report
