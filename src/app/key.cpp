#include "key.hpp"

#include <array>
#include <cstddef>
#include <string_view>

namespace compline::app {

namespace {

constexpr char escape = '\x1B';
constexpr std::size_t longest = 32;  ///< a sequence that does not end is none

struct Named {
    std::string_view sequence;
    NamedKey key;
};

/// ECMA-48's cursor keys, and DEC's in application mode (ESC O); "1~" is the VT220's Home, "7~"
/// that of rxvt. Page-turning pedals send page up and down, or the arrows.
constexpr std::array<Named, 14> named_keys = {{{"\x1B[A", NamedKey::up},
                                               {"\x1BOA", NamedKey::up},
                                               {"\x1B[B", NamedKey::down},
                                               {"\x1BOB", NamedKey::down},
                                               {"\x1B[C", NamedKey::right},
                                               {"\x1BOC", NamedKey::right},
                                               {"\x1B[D", NamedKey::left},
                                               {"\x1BOD", NamedKey::left},
                                               {"\x1B[5~", NamedKey::page_up},
                                               {"\x1B[6~", NamedKey::page_down},
                                               {"\x1B[H", NamedKey::home},
                                               {"\x1BOH", NamedKey::home},
                                               {"\x1B[1~", NamedKey::home},
                                               {"\x1B[7~", NamedKey::home}}};

bool introduces(char byte) { return byte == '[' || byte == 'O'; }

/// ECMA-48, 5.4: parameters and intermediate bytes (0x20 to 0x3F), then one final byte. F1 to F5 of
/// the Linux console have a second bracket before theirs.
bool is_complete(std::string_view sequence) {
    if (sequence.size() < 2) return false;
    if (!introduces(sequence[1])) return true;  // Alt with another key
    if (sequence.size() == 2 || sequence == "\x1B[[") return false;
    const char last = sequence.back();
    return last < ' ' || last > '?' || sequence.size() == longest;
}

std::optional<KeyPress> named(std::string_view sequence) {
    for (const auto& known : named_keys) {
        if (known.sequence == sequence) return known.key;
    }
    return std::nullopt;
}

}  // namespace

std::optional<KeyPress> KeyReader::add(char byte) {
    turns_ = 0;
    if (byte == escape) {
        sequence_ = byte;  // whatever was there before is none of ours
        return std::nullopt;
    }
    if (sequence_.empty()) return byte;
    sequence_ += byte;
    if (!is_complete(sequence_)) return std::nullopt;
    const auto key = named(sequence_);
    sequence_.clear();
    return key;
}

void KeyReader::nothing_came() {
    if (++turns_ >= patience) sequence_.clear();
}

}  // namespace compline::app
