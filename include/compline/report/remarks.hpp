#pragma once

#include <compline/practice/evening.hpp>

#include <string>

namespace compline::report {

/// What is said once while it plays, in one line.
[[nodiscard]] std::string in_words(practice::Remark remark);

/// What a ladder made of a time through and what comes then (report::ladder_line); empty where it
/// said nothing of it.
[[nodiscard]] std::string ladder_line(const practice::State& state, int time_through);

}  // namespace compline::report
