#include <compline/text/utf8.hpp>

#include <fmt/format.h>

namespace compline::text {

namespace {

struct Lead {
    std::size_t bytes;
    char32_t bits;
    char32_t least;  ///< of a sequence this long; anything smaller is an overlong form
};

Lead read_lead(unsigned char byte) {
    if (byte < 0x80) return {1, byte, 0};
    if (byte >= 0xC2 && byte < 0xE0) return {2, char32_t(byte & 0x1F), 0x80};
    if (byte >= 0xE0 && byte < 0xF0) return {3, char32_t(byte & 0x0F), 0x800};
    if (byte >= 0xF0 && byte < 0xF5) return {4, char32_t(byte & 0x07), 0x10000};
    return {0, 0, 0};
}

bool is_scalar_value(char32_t c) { return c <= 0x10FFFF && (c < 0xD800 || c > 0xDFFF); }

}  // namespace

CodePoint code_point_at(std::string_view text, std::size_t offset) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const CodePoint invalid{byte(offset), 1, false};
    const Lead lead = read_lead(byte(offset));
    if (lead.bytes == 0 || offset + lead.bytes > text.size()) return invalid;
    char32_t value = lead.bits;
    for (std::size_t i = 1; i < lead.bytes; ++i) {
        if ((byte(offset + i) & 0xC0) != 0x80) return invalid;
        value = (value << 6) | char32_t(byte(offset + i) & 0x3F);
    }
    if (value < lead.least || !is_scalar_value(value)) return invalid;
    return {value, lead.bytes, true};
}

std::size_t count_code_points(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size(); at += code_point_at(text, at).bytes) ++count;
    return count;
}

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c < 0xA0); }

bool is_misleading(char32_t c) {
    const bool mark = c == 0x061C || c == 0x200B || c == 0x200E || c == 0x200F || c == 0xFEFF;
    return mark || (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x206F) ||
           (c >= 0xE0000 && c <= 0xE007F);
}

bool is_invisible(char32_t c) {
    return c == 0xA0 || c == 0xAD || (c >= 0x2000 && c <= 0x200F) || c == 0x202F || c == 0x205F ||
           (c >= 0x2060 && c <= 0x2064) || c == 0x3000;
}

bool is_letter(char32_t c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           (c >= 0xA0 && !is_invisible(c) && !is_misleading(c));
}

std::string code_point_name(char32_t c) {
    return fmt::format("U+{:04X}", static_cast<unsigned>(c));
}

}  // namespace compline::text
