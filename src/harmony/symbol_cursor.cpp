#include "symbol_cursor.hpp"

#include "symbol_advice.hpp"
#include "symbol_parts.hpp"

#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::harmony {

namespace {

// Word processors and phones put a dash where a hyphen was typed.
constexpr std::array<std::string_view, 4> minus_signs = {"-", "−", "–", "‑"};

}  // namespace

bool SymbolCursor::sees_word(std::string_view word) const { return begins_with_word(rest(), word); }

bool SymbolCursor::eat(std::string_view text) {
    if (!sees(text)) return false;
    at_ += text.size();
    return true;
}

bool SymbolCursor::eat_word(std::string_view word) {
    if (!sees_word(word)) return false;
    at_ += word.size();
    if (word.size() > 1) eat(".");
    return true;
}

void SymbolCursor::eat_blanks() {
    while (eat(" ")) {
    }
}

int SymbolCursor::eat_accidental() {
    const bool minus = std::any_of(minus_signs.begin(), minus_signs.end(),
                                   [&](std::string_view sign) { return eat(sign); });
    if (minus || eat("b") || eat("♭")) return -1;
    if (eat("#") || eat("♯") || eat("+")) return 1;
    return 0;
}

void SymbolCursor::fail(std::size_t place, std::string_view why) const {
    fail_symbol(symbol_, place, why);
}

void SymbolCursor::expect(std::string_view what, Advise advise) const {
    const auto before = text::quoted(symbol_.substr(0, at_));
    if (at_end()) fail(at_, fmt::format("after {} stands {}", before, what));
    const auto advice = advise == Advise::yes ? advice_for(rest()) : "";
    if (!advice.empty()) fail(at_, advice);
    fail(at_, fmt::format("after {} stands {}, not {}", before, what, text::quoted(rest())));
}

}  // namespace compline::harmony
