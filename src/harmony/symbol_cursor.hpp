#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace compline::harmony {

/// A number as it may stand in a symbol, and what it counts as.
struct Number {
    std::string_view text;
    int value;
};

/// A place in a chord symbol that moves from left to right.
class SymbolCursor {
  public:
    explicit SymbolCursor(std::string_view symbol) : symbol_(symbol) {}

    [[nodiscard]] std::string_view symbol() const { return symbol_; }
    [[nodiscard]] std::size_t place() const { return at_; }
    [[nodiscard]] std::string_view rest() const { return symbol_.substr(at_); }
    [[nodiscard]] std::string_view read_since(std::size_t start) const {
        return symbol_.substr(start, at_ - start);
    }
    [[nodiscard]] bool at_end() const { return at_ == symbol_.size(); }
    [[nodiscard]] bool sees(std::string_view text) const { return rest().starts_with(text); }
    /// In capitals, small letters or both; `word` in small ones.
    [[nodiscard]] bool sees_word(std::string_view word) const;
    [[nodiscard]] bool sees_digit() const {
        return !at_end() && rest().front() >= '0' && rest().front() <= '9';
    }

    void go_to(std::size_t place) { at_ = place; }
    bool eat(std::string_view text);
    bool eat_word(std::string_view word);  ///< and the point behind an abbreviation
    void eat_blanks();

    template <std::size_t n>
    std::optional<int> eat_number(const std::array<Number, n>& choice) {
        for (const auto& number : choice) {
            if (eat(number.text)) return number.value;
        }
        return std::nullopt;
    }

    /// -1 flat, 1 sharp, 0 none. After a number - and + are accidentals too (7-9, 7+11).
    int eat_accidental();

    [[noreturn]] void fail(std::size_t place, std::string_view why) const;
    /// Something else stands here than what could; in better words where advice_for() has some.
    enum class Advise { yes, no };
    [[noreturn]] void expect(std::string_view what, Advise advise = Advise::yes) const;

  private:
    std::string_view symbol_;
    std::size_t at_ = 0;
};

}  // namespace compline::harmony
