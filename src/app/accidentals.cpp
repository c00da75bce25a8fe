#include "accidentals.hpp"

#include <compline/text/accidentals.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::app {

namespace {

/// What was asked for, once, by the command line or the settings.
bool letters = false;

}  // namespace

Option accidentals_option() {
    return as_setting({"--accidentals", "HOW",
                       "signs (♭ ♯), or letters (b #) for a terminal without.", "signs",
                       one_of<bool>({{"signs", false}, {"letters", true}}, &letters)});
}

std::string as_shown(std::string text) {
    return letters ? text::with_letters(text) : std::move(text);
}

void print_words(std::string_view text) { fmt::print("{}", as_shown(std::string(text))); }

}  // namespace compline::app
