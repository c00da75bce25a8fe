#pragma once

#include "canvas.hpp"

#include <compline/harmony/chord.hpp>

#include <optional>
#include <string>

namespace compline::report {

/// A chord symbol in the parts that it is read by: "B♭", "△7", "/D". What is long elsewhere is a
/// sign here, so that it can be drawn larger: △ for maj, ø7 for m7♭5, ° for dim (common practice,
/// no source).
struct LargeChord {
    std::string root;
    std::string suffix;
    std::string bass;
    bool operator==(const LargeChord&) const = default;
};

/// Without a chord "N.C.".
[[nodiscard]] LargeChord large_chord(const std::optional<harmony::Chord>& chord);

/// How large a symbol is drawn: the root as large as the rest or larger, never more than twice.
struct ChordSize {
    Scale root;
    Scale rest;
    [[nodiscard]] int rows() const { return glyph_rows * root.down; }
};

/// The largest that fits into so many pixels; letters may be half as high again as they are wide.
/// None where there is no room for the smallest.
[[nodiscard]] std::optional<ChordSize> size_of(const LargeChord& chord, int columns, int rows);

[[nodiscard]] int pixels_across(const LargeChord& chord, const ChordSize& size);

/// The suffix hangs high, the bass stands low.
void draw(Canvas& canvas, const LargeChord& chord, const ChordSize& size, int column, int row);

}  // namespace compline::report
