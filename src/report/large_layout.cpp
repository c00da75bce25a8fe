#include "large_layout.hpp"

#include <compline/report/large_view.hpp>

#include <algorithm>

namespace compline::report {

namespace {

constexpr int fewest_lines = 11;
constexpr int fewest_columns = 24;
constexpr int usual_symbol = 16;   ///< pixels across: B♭7, and nearly Dm7
constexpr int beside_a_grip = 44;  ///< columns that chords have at least
constexpr int beside_a_large_grip = 100;
constexpr int between = 2;  ///< columns before the grip

int lines_of(int rows) { return (rows + 1) / 2; }
int glyph_lines(int scale) { return lines_of(glyph_rows * scale); }

void place_grip(LargeLayout& layout, int room, int strings) {
    for (const auto set : {GlyphSet::large, GlyphSet::small}) {
        const GripLook look{set};
        const int least = set == GlyphSet::large ? beside_a_large_grip : beside_a_grip;
        const int columns = layout.columns - look.columns(strings) - between;
        if (columns < least || look.lines(frets_shown) > room) continue;
        layout.grip = look;
        layout.grip_columns = look.columns(strings);
        layout.columns = columns;
        return;
    }
    layout.shape = glyph_lines(1);
}

/// The chord that sounds and the next one, which has two fifths of its size or more.
void share(LargeLayout& layout, int room) {
    const auto least_next = [](int now) { return std::max(1, (now * 2 + 2) / 5); };
    int now = std::max(1, layout.columns / usual_symbol);
    while (now > 1 && glyph_lines(now) + glyph_lines(least_next(now)) > room) --now;
    if (glyph_lines(now) + glyph_lines(1) > room) {
        now = std::max(1, std::min(layout.columns / usual_symbol, room * 2 / glyph_rows));
        layout.now = std::min(room, glyph_lines(now));
        return;
    }
    int next = least_next(now);
    while (next + 1 < now && glyph_lines(now) + glyph_lines(next + 1) <= room) ++next;
    layout.next = glyph_lines(next);
    layout.now = std::min(room - layout.next, lines_of(glyph_rows * now * 3 / 2));
}

}  // namespace

int message_lines(int window_lines) { return window_lines >= 30 ? 3 : window_lines >= 16 ? 2 : 1; }

std::optional<LargeLayout> large_layout(Window window, int strings) {
    const int lines = window.lines;
    if (lines < fewest_lines || window.columns < fewest_columns) return std::nullopt;
    LargeLayout layout;
    layout.columns = window.columns;
    layout.header = lines >= 34 ? glyph_lines(1) + 1 : 0;
    layout.beats = lines >= 45 ? 4 : lines >= 34 ? 3 : lines >= 20 ? 2 : 1;
    layout.label = lines >= 18 ? 1 : 0;
    layout.keys = lines >= 20 ? 1 : 0;
    layout.messages = message_lines(lines);
    const int room = lines - layout.drawn() - layout.status - layout.keys - layout.messages;
    if (strings > 0) place_grip(layout, room + layout.drawn(), strings);
    share(layout, room - layout.shape);
    // What is left over stands between the chords and the words.
    layout.status += room - layout.shape - layout.now - layout.next;
    return layout;
}

}  // namespace compline::report
