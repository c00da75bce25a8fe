#pragma once

#include "command.hpp"
#include "setup_steps.hpp"

#include <string>

namespace compline::app {

// How setting up ends: what was answered is written, and played by once.

/// Nothing is kept before it is answered.
[[nodiscard]] Question write_question(Setup setup, bool* written);

/// Where there is something to play through, and to hear by.
[[nodiscard]] Question together_question(Setup setup, bool* together);

/// The first changes once through, as a player would type it; by what was answered where that was
/// not written. guitar: the one that was asked for; may be empty.
[[nodiscard]] Status practise_together(const SetupAnswers& answers, const std::string& guitar,
                                       bool written);

/// What is typed behind `compline` for it.
[[nodiscard]] std::vector<std::string> words_to_practise(const SetupAnswers& answers,
                                                         const std::string& guitar, bool written);

}  // namespace compline::app
