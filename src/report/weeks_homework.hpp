#pragma once

#include <compline/history/tune_history.hpp>

#include <string>

namespace compline::report {

// What a sheet of homework says, on a terminal and on paper.

/// "Homework for Anna".
[[nodiscard]] std::string whose_words(const history::Homework& homework);
[[nodiscard]] std::string what_to_do(const history::Homework& homework);
[[nodiscard]] std::string done_when(const history::Homework& homework);

inline constexpr const char* take_care =
    "Not louder than you could still talk over. Rest your hand every ten minutes; stop when it "
    "hurts, and ask a doctor when that does not pass.";

}  // namespace compline::report
