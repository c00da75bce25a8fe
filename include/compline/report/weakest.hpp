#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// The weakest bars of what was played (it has some, asserted): "bars 9-12 (B:1-4): 7 faults in 6
/// times through".
[[nodiscard]] std::string weakest_words(const practice::Report& report);

}  // namespace compline::report
