#pragma once

#include <compline/practice/evening.hpp>
#include <compline/report/now_playing.hpp>

#include <string>

namespace compline::report {

/// What the display says of an evening's state.
[[nodiscard]] Decided decided_in(const practice::State& state);

/// Why a command changed nothing, in a few words: "no slower".
[[nodiscard]] std::string in_words(practice::Refusal refusal);

}  // namespace compline::report
