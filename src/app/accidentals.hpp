#pragma once

#include "option.hpp"

#include <string>
#include <string_view>

namespace compline::app {

// Flats and sharps as a terminal can show them: a console without a window system often has no ♭.
// Words for people alone are written so; JSON, pages and files have one way of writing always.

/// --accidentals, which holds for all that this process shows.
///
/// Threads: read before any output, by the main thread alone, like what is below
[[nodiscard]] Option accidentals_option();

/// As it is to be shown: ♭ and ♯, or b and #.
[[nodiscard]] std::string as_shown(std::string text);

/// Words for people, on the standard output.
void print_words(std::string_view text);

}  // namespace compline::app
