#pragma once

#include "faults.hpp"

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// What a report begins with: how many changes were in time, how many had the right tones, and what
/// to work on; or that too little was heard to say so. "27 of 32 changes in time, 28 with the right
/// tones: work on bar 14."
[[nodiscard]] std::string first_sentence(const practice::Report& report, const FaultLines& faults);

}  // namespace compline::report
