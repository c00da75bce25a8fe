#include "text_width.hpp"

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
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte < 0x80) {
            ems += width_of(text[i]);
        } else if (byte >= 0xC0) {
            const auto three = text.substr(i, 3);
            ems += three == "♭" || three == "♯" ? accidental : anything_else;
        }
    }
    return ems;
}

}  // namespace compline::report
