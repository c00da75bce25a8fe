#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// Where a third or more of what was struck was placed equally long after its own beat: by how
/// much, how far behind that beat, and what to ask for if that was meant. Else nothing.
[[nodiscard]] std::string placing_text(const practice::Report& report);

}  // namespace compline::report
