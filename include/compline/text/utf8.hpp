#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace compline::text {

// Places in a text are counted in code points, so that an editor's cursor agrees with them however
// many bytes a ♭ takes.

struct CodePoint {
    char32_t value = 0;
    std::size_t bytes = 1;
    bool valid = true;
};

/// The code point at a byte offset (inside `text`). A byte that starts none of the well-formed
/// sequences of UTF-8 (Unicode standard, table 3-7) is an invalid one of length 1.
[[nodiscard]] CodePoint code_point_at(std::string_view text, std::size_t offset);

/// How many code points `text` has; each invalid byte counts as one.
[[nodiscard]] std::size_t count_code_points(std::string_view text);

/// Control characters of ASCII and Latin-1, and DEL.
[[nodiscard]] bool is_control(char32_t c);

/// Line and paragraph separators, a byte order mark, a blank of no width, marks that turn the
/// direction of text round or once did (U+206A to F), and tags (U+E0000 to E007F), which spell
/// words that nobody sees: they make a line read differently from what it says.
[[nodiscard]] bool is_misleading(char32_t c);

/// Blanks that are not the space bar's, and characters of no width.
[[nodiscard]] bool is_invisible(char32_t c);

/// A letter of a name: A to Z, a to z, and whatever can be seen beyond ASCII.
[[nodiscard]] bool is_letter(char32_t c);

/// "U+00A0".
[[nodiscard]] std::string code_point_name(char32_t c);

}  // namespace compline::text
