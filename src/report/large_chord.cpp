#include "large_chord.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace compline::report {

namespace {

constexpr const char* no_chord = "N.C.";

/// What stands at the beginning of a suffix, and its sign. A bracket goes with what it holds.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> signs = {
    {{"m7♭5", "ø7"}, {"m9♭5", "ø9"}, {"m11♭5", "ø11"}, {"dim", "°"}, {"maj", "△"}}};

std::string in_signs(std::string suffix) {
    for (const auto& [words, sign] : signs) {
        if (suffix.compare(0, words.size(), words) == 0) suffix.replace(0, words.size(), sign);
    }
    // "m(maj7)", "°(maj7)".
    constexpr std::string_view bracket = "(maj";
    if (const auto at = suffix.find(bracket); at != std::string::npos) {
        suffix.erase(suffix.find(')', at), 1);
        suffix.replace(at, bracket.size(), "△");
    }
    return suffix;
}

int height_across(int across, int rows) {
    const int highest = (across * 3 + 1) / 2;
    return std::min(highest, rows / glyph_rows);
}

}  // namespace

LargeChord large_chord(const std::optional<harmony::Chord>& chord) {
    if (!chord) return {no_chord, "", ""};
    LargeChord large{chord->root.name(), "", chord->bass ? "/" + chord->bass->name() : ""};
    const auto symbol = chord->symbol();
    const auto suffix = symbol.size() - large.root.size() - large.bass.size();
    large.suffix = in_signs(symbol.substr(large.root.size(), suffix));
    return large;
}

int pixels_across(const LargeChord& chord, const ChordSize& size) {
    const auto rest = chord.suffix + chord.bass;
    const int root = pixels_across(chord.root) * size.root.across;
    if (rest.empty()) return root;
    return root + (1 + pixels_across(rest)) * size.rest.across;
}

std::optional<ChordSize> size_of(const LargeChord& chord, int columns, int rows) {
    const int of_root = pixels_across(chord.root);
    const auto after = chord.suffix + chord.bass;
    const int of_rest = after.empty() ? 0 : 1 + pixels_across(after);
    const auto fits = [&](int root, int rest) {
        return of_root * root + of_rest * rest <= columns && root * glyph_rows <= rows;
    };
    if (!fits(1, 1)) return std::nullopt;
    int rest = 1;
    while (fits(rest + 1, rest + 1)) ++rest;
    int root = rest;
    while (root < 2 * rest && fits(root + 1, rest)) ++root;
    const int down = height_across(root, rows);
    return ChordSize{{root, down}, {rest, std::max(rest, rest * down / root)}};
}

void draw(Canvas& canvas, const LargeChord& chord, const ChordSize& size, int column, int row) {
    int x = canvas.draw(chord.root, column, row, size.root) + size.rest.across;
    if (!chord.suffix.empty()) {
        x = canvas.draw(chord.suffix, x, row, size.rest) + size.rest.across;
    }
    const int lower = row + glyph_rows * (size.root.down - size.rest.down);
    canvas.draw(chord.bass, x, lower, size.rest);
}

}  // namespace compline::report
