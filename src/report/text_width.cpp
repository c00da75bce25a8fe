#include "text_width.hpp"

#include <compline/report/columns.hpp>
#include <compline/text/utf8.hpp>

#include <array>
#include <string_view>

namespace compline::report {

namespace {

struct Widths {
    std::string_view characters;
    double ems;
};

/// Times bold, rounded up.
constexpr std::array<Widths, 8> table = {{{"ijl.,;:' |!", 0.3},
                                          {"frstI()/-[]", 0.4},
                                          {"0123456789acegovxyzJ\"*", 0.52},
                                          {"bdhkpqnuLFPS$?", 0.62},
                                          {"BETZ+<>=#_", 0.68},
                                          {"ACDGNORUVXYKH&wQ", 0.79},
                                          {"mM", 0.95},
                                          {"W@%", 1.0}}};

/// What other fonts have to be asked for.
constexpr double accidental = 0.5;
constexpr double anything_else = 1.0;

double width_of(char c) {
    for (const auto& row : table) {
        if (row.characters.find(c) != std::string_view::npos) return row.ems;
    }
    return anything_else;
}

}  // namespace

double width_in_ems(std::string_view text) {
    double ems = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = text::code_point_at(text, at);
        const bool sign = c.value == U'♭' || c.value == U'♯';
        ems += c.value < 0x80 ? width_of(text[at]) : sign ? accidental : anything_else;
        at += c.bytes;
    }
    return ems;
}

std::string fitting(const std::string& text, double ems) {
    std::string kept = text;
    for (int columns = columns_of(text); width_in_ems(kept) > ems && columns > 1; --columns) {
        kept = cut_to_columns(text, columns - 1);
    }
    return kept;
}

}  // namespace compline::report
