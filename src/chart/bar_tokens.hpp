#pragma once

#include "chart_line.hpp"
#include "kicks.hpp"

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace compline::chart {

/// A sign of a bar: a chord, a slash, a simile, N.C.
struct BarToken {
    std::string_view text;  ///< the sign
    MarkedSign marks;       ///< behind it
    std::size_t offset;     ///< in the file
    const yaml::TextLine* line;
    std::size_t byte;       ///< in the line
    bool optional = false;  ///< between parentheses around whole signs: (Dm7 G7)

    /// Where a part of it stands in the file.
    [[nodiscard]] std::size_t place_of(std::string_view part) const;
    /// A chord that comes in on the off-beat, as a sign of its own.
    [[nodiscard]] BarToken off_beat() const;
    [[nodiscard]] KickMarks kicks() const;
};

struct BarTokens {
    std::vector<BarToken> tokens;
    std::optional<std::size_t> unclosed;  ///< in the line: a ( before whole signs without its )
};

/// The signs of a line between two of its bytes, which hold a bar. A blank in a parenthesis that
/// opened inside of a symbol is the symbol's own: C7(b9 b13).
[[nodiscard]] BarTokens tokens_of_bar(const yaml::TextLine& line, std::size_t from, std::size_t to);

/// Whether a blank or sharp at `at` stands in a parenthesis of a symbol of that bar.
[[nodiscard]] bool in_a_symbol(std::string_view text, std::size_t at);

}  // namespace compline::chart
