#pragma once

#include <optional>
#include <string>
#include <variant>

namespace compline::app {

/// Keys that send an escape sequence and not a character.
enum class NamedKey { up, down, left, right, home, page_up, page_down };

/// A key that was pressed: a character of ASCII, or one of those with a name.
using KeyPress = std::variant<char, NamedKey>;

/// Makes keys of a terminal's bytes, by the grammar of ECMA-48 and what xterm adds to it. What it
/// knows gives a key; all else gives nothing and leaves none of its bytes behind as letters:
///
///     ESC [ parameters final      arrows and pages; reports, F5, the wheel of a mouse
///     ESC [ M and 3 characters    a mouse of old
///     ESC [ [ letter              F1 to F5 of the Linux console
///     ESC O parameters final      arrows in application mode; F1, the keypad
///     ESC ] P X ^ _ ... BEL       what a terminal answers, also ended by ESC and a backslash
///     ESC byte                    Alt with another key
///     ESC [ 200 ~ ... ESC [ 201 ~ pasted text: nobody types a tune's title to stop the band
///     bytes beyond ASCII          letters of other alphabets; controls of eight bits as their ESC
///
/// A sequence may come in pieces, as over a slow connection. ESC begins anew whatever was there
/// before, which counts for nothing, and other control characters break a sequence off.
class KeyReader {
  public:
    /// The key that this byte completes.
    [[nodiscard]] std::optional<KeyPress> add(char byte);

    /// Nothing came. After some turns of this what began as a sequence was ESC pressed alone, or
    /// its end is lost (of what was pasted too), and the next byte begins anew.
    void nothing_came();

    /// Turns of a tenth of a second, at 10 ms each: no hand presses ESC and another key so fast,
    /// and no connection that one can play over is so slow.
    static constexpr int patience = 10;

  private:
    enum class Within { nothing, escape, control_sequence, one_more, string };

    [[nodiscard]] std::optional<KeyPress> alone(unsigned char byte);
    void after_escape(char byte);
    [[nodiscard]] std::optional<KeyPress> in_sequence(unsigned char byte);
    [[nodiscard]] std::optional<KeyPress> completed();
    [[nodiscard]] bool goes_on_with(unsigned char byte);

    Within within_ = Within::nothing;
    std::string sequence_;      ///< what followed ESC, as far as a sequence of ours is long
    int continuations_ = 0;     ///< of a character of UTF-8, still to come
    int mouse_characters_ = 0;  ///< still to come
    bool pasted_ = false;       ///< what comes is not typed
    int turns_ = 0;             ///< without a byte
};

}  // namespace compline::app
