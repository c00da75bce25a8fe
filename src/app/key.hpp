#pragma once

#include <optional>
#include <string>
#include <variant>

namespace compline::app {

/// Keys that send an escape sequence and not a character.
enum class NamedKey { up, down, left, right, home, page_up, page_down };

/// A key that was pressed: a character (a byte of one, beyond ASCII), or one of those with a name.
using KeyPress = std::variant<char, NamedKey>;

/// Makes keys of a terminal's bytes. A sequence may come in pieces, as over a slow connection; ESC
/// alone, and a sequence that is none of ours (F5, Alt with a letter), give nothing.
class KeyReader {
  public:
    /// The key that this byte completes.
    [[nodiscard]] std::optional<KeyPress> add(char byte);

    /// Nothing came. After some turns of this what began as a sequence was ESC pressed alone, and
    /// the next byte begins anew.
    void nothing_came();

    /// Turns of a tenth of a second, at 10 ms each: no hand presses ESC and another key so fast,
    /// and no connection that one can play over is so slow.
    static constexpr int patience = 10;

  private:
    std::string sequence_;  ///< ESC and what followed it
    int turns_ = 0;         ///< without a byte, in the midst of it
};

}  // namespace compline::app
