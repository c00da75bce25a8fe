#include <compline/report/columns.hpp>
#include <compline/text/utf8.hpp>

#include <algorithm>
#include <array>
#include <cstddef>

namespace compline::report {

namespace {

struct Range {
    char32_t first;
    char32_t last;
};

/// Combining marks and joiners that may get into a section's name (Unicode's blocks of them).
constexpr std::array<Range, 7> no_column = {{{0x0300, 0x036F},
                                             {0x0483, 0x0489},
                                             {0x0591, 0x05BD},
                                             {0x064B, 0x065F},
                                             {0x200B, 0x200F},
                                             {0x20D0, 0x20FF},
                                             {0xFE00, 0xFE0F}}};

/// The wide blocks of Unicode's annex 11, roughly: a column too many looks better than one too few.
constexpr std::array<Range, 8> two_columns = {{{0x1100, 0x115F},
                                               {0x2E80, 0xA4CF},
                                               {0xAC00, 0xD7A3},
                                               {0xF900, 0xFAFF},
                                               {0xFE30, 0xFE6F},
                                               {0xFF01, 0xFF60},
                                               {0x1F300, 0x1FAFF},
                                               {0x20000, 0x3FFFD}}};

template <std::size_t n>
bool is_in(char32_t c, const std::array<Range, n>& ranges) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [c](Range r) { return c >= r.first && c <= r.last; });
}

/// What stands at one place of a text: a character or an escape sequence.
struct Piece {
    std::size_t bytes = 1;
    int columns = 1;
    bool escape = false;
};

Piece escape_sequence(std::string_view text) {
    std::size_t end = std::min<std::size_t>(2, text.size());
    while (end < text.size() && (text[end] < '@' || text[end] > '~')) ++end;
    return {std::min(end + 1, text.size()), 0, true};
}

/// A byte that is no UTF-8 counts as a character of its own.
Piece character(std::string_view text) {
    const auto c = text::code_point_at(text, 0);
    if (!c.valid) return {};
    return {c.bytes, is_in(c.value, no_column) ? 0 : is_in(c.value, two_columns) ? 2 : 1, false};
}

Piece first_piece(std::string_view text) {
    return text.front() == '\x1B' ? escape_sequence(text) : character(text);
}

/// The last blank before which the line fits; the first one where a word is wider; else its end.
std::size_t line_break(std::string_view line, int columns) {
    if (columns_of(line) <= columns) return line.size();
    auto end = std::min(line.find(' '), line.size());
    for (auto blank = end; blank < line.size(); blank = line.find(' ', blank + 1)) {
        if (columns_of(line.substr(0, blank)) > columns) break;
        end = blank;
    }
    return end;
}

}  // namespace

int columns_of(std::string_view text) {
    int columns = 0;
    while (!text.empty()) {
        const Piece piece = first_piece(text);
        columns += piece.columns;
        text.remove_prefix(piece.bytes);
    }
    return columns;
}

std::string cut_to_columns(std::string_view text, int columns) {
    if (columns_of(text) <= columns) return std::string(text);
    std::string kept;
    int room = columns - 1;  // the last one is for the "…"
    bool escaped = false;
    while (!text.empty()) {
        const Piece piece = first_piece(text);
        if (piece.columns > room) break;
        room -= piece.columns;
        escaped = escaped || piece.escape;
        kept += text.substr(0, piece.bytes);
        text.remove_prefix(piece.bytes);
    }
    return kept + "…" + (escaped ? "\x1B[0m" : "");
}

std::string hanging(const std::string& line, int columns, std::size_t indent) {
    const auto first = in_lines(line, columns).front();
    if (first.size() >= line.size()) return line;
    std::string text = first;
    const auto room = columns - static_cast<int>(indent);
    for (const auto& more : in_lines(line.substr(first.size() + 1), room)) {
        const auto begins = std::min(more.find_first_not_of(' '), more.size());
        text += "\n" + std::string(indent, ' ') + more.substr(begins);
    }
    return text;
}

std::string padded(const std::string& text, int columns) {
    const int blanks = std::max(0, columns - columns_of(text));
    return text + std::string(static_cast<std::size_t>(blanks), ' ');
}

std::vector<std::string> in_lines(std::string_view text, int columns) {
    std::vector<std::string> lines;
    for (auto left = text;;) {
        const auto line = left.substr(0, std::min(left.find('\n'), left.size()));
        const auto end = line_break(line, columns);
        lines.emplace_back(line.substr(0, end));
        if (end == left.size()) return lines;
        left.remove_prefix(end + 1);  // and the blank, or the line feed
    }
}

}  // namespace compline::report
