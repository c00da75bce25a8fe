#pragma once

#include <compline/report/now_playing.hpp>

#include <string>

namespace compline::report {

/// ECMA-48, "select graphic rendition": no colour among them.
inline constexpr const char* bold = "\x1B[1m";
inline constexpr const char* dim = "\x1B[2m";
inline constexpr const char* bold_reverse = "\x1B[1;7m";
inline constexpr const char* as_usual = "\x1B[0m";

/// A text with an attribute, where they may be used.
[[nodiscard]] inline std::string with(const char* attribute, const std::string& text,
                                      const Playing& playing) {
    if (!playing.attributes || text.empty()) return text;
    return attribute + text + as_usual;
}

}  // namespace compline::report
