#include "key.hpp"

#include <array>
#include <cstddef>
#include <string_view>

namespace compline::app {

namespace {

constexpr unsigned char escape = 0x1B;
constexpr unsigned char bell = 0x07;
constexpr std::size_t longest = 8;  ///< no sequence of ours is as long; the rest is not kept

constexpr std::string_view paste_begins = "[200~";
constexpr std::string_view paste_ends = "[201~";
constexpr std::string_view mouse_of_old = "[M";  ///< button, column, line: a character each

struct Named {
    std::string_view sequence;  ///< behind ESC
    NamedKey key;
};

/// ECMA-48's cursor keys, and DEC's in application mode (ESC O); "1~" is the VT220's Home, "7~"
/// that of rxvt. Page-turning pedals send page up and down, or the arrows.
constexpr std::array<Named, 14> named_keys = {{{"[A", NamedKey::up},
                                               {"OA", NamedKey::up},
                                               {"[B", NamedKey::down},
                                               {"OB", NamedKey::down},
                                               {"[C", NamedKey::right},
                                               {"OC", NamedKey::right},
                                               {"[D", NamedKey::left},
                                               {"OD", NamedKey::left},
                                               {"[5~", NamedKey::page_up},
                                               {"[6~", NamedKey::page_down},
                                               {"[H", NamedKey::home},
                                               {"OH", NamedKey::home},
                                               {"[1~", NamedKey::home},
                                               {"[7~", NamedKey::home}}};

bool is_ascii(unsigned char byte) { return byte < 0x80; }
/// ECMA-48, 5.4: parameters and intermediate bytes, then one final byte.
bool is_parameter(unsigned char byte) { return byte >= 0x20 && byte <= 0x3F; }
bool is_control(unsigned char byte) { return byte < 0x20 || byte == 0x7F; }
/// ECMA-48, 5.3: of eight bits, each the same as ESC and a byte of 0x40 to 0x5F.
bool is_control_of_eight_bits(unsigned char byte) { return byte >= 0x80 && byte <= 0x9F; }
bool is_continuation(unsigned char byte) { return (byte & 0xC0) == 0x80; }

/// Bytes of UTF-8 that follow this one.
int continuations_after(unsigned char byte) {
    return byte >= 0xF0 ? 3 : byte >= 0xE0 ? 2 : byte >= 0xC0 ? 1 : 0;
}

}  // namespace

std::optional<KeyPress> KeyReader::add(char byte) {
    turns_ = 0;
    const auto key = in_sequence(static_cast<unsigned char>(byte));
    return pasted_ ? std::nullopt : key;
}

/// A byte of a character beyond ASCII, whose first one was there.
bool KeyReader::goes_on_with(unsigned char byte) {
    if (continuations_ > 0 && is_continuation(byte)) {
        --continuations_;
        return true;
    }
    continuations_ = continuations_after(byte);
    return false;
}

std::optional<KeyPress> KeyReader::in_sequence(unsigned char byte) {
    if (goes_on_with(byte)) return std::nullopt;
    if (byte == escape) {
        within_ = Within::escape;  // whatever was there before is none of ours
        mouse_characters_ = 0;
        sequence_.clear();
        return std::nullopt;
    }
    if (mouse_characters_ > 0) {
        --mouse_characters_;
        return std::nullopt;
    }
    if (within_ == Within::string) {
        if (byte == bell) within_ = Within::nothing;
        return std::nullopt;
    }
    if (within_ == Within::nothing) return alone(byte);
    if (is_control(byte) || !is_ascii(byte)) {
        within_ = Within::nothing;
        return std::nullopt;
    }
    if (sequence_.size() < longest) sequence_ += static_cast<char>(byte);
    if (within_ == Within::escape) {
        after_escape(static_cast<char>(byte));
        return std::nullopt;
    }
    if (within_ == Within::control_sequence && is_parameter(byte)) return std::nullopt;
    return completed();
}

std::optional<KeyPress> KeyReader::alone(unsigned char byte) {
    if (is_ascii(byte)) return static_cast<char>(byte);
    if (!is_control_of_eight_bits(byte)) return std::nullopt;
    (void)in_sequence(escape);
    return in_sequence(static_cast<unsigned char>(byte - 0x40));
}

void KeyReader::after_escape(char byte) {
    constexpr std::string_view strings = "]PX^_";
    const bool string = strings.find(byte) != std::string_view::npos;
    within_ = byte == '[' || byte == 'O' ? Within::control_sequence
              : string                   ? Within::string
                                         : Within::nothing;  // Alt with another key
}

/// A final byte came; behind some there is more.
std::optional<KeyPress> KeyReader::completed() {
    if (within_ == Within::control_sequence && sequence_ == "[[") {
        within_ = Within::one_more;
        return std::nullopt;
    }
    within_ = Within::nothing;
    if (sequence_ == mouse_of_old) mouse_characters_ = 3;
    if (sequence_ == paste_begins) pasted_ = true;
    if (sequence_ == paste_ends) pasted_ = false;
    for (const auto& known : named_keys) {
        if (known.sequence == sequence_) return known.key;
    }
    return std::nullopt;
}

void KeyReader::nothing_came() {
    if (++turns_ < patience) return;
    within_ = Within::nothing;
    continuations_ = 0;
    mouse_characters_ = 0;
    pasted_ = false;
}

}  // namespace compline::app
