#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::text {

std::string printable(std::string_view text, std::size_t most) {
    std::string out;
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (count++ == most) return out + "...";
        const CodePoint c = code_point_at(text, at);
        const bool plain =
            c.valid && !is_control(c.value) && !is_misleading(c.value) && !is_invisible(c.value);
        if (plain) {
            out += text.substr(at, c.bytes);
        } else {
            out += c.valid ? fmt::format("<{}>", code_point_name(c.value))
                           : fmt::format("<byte {:02X}>", static_cast<unsigned>(c.value));
        }
        at += c.bytes;
    }
    return out;
}

std::string quoted(std::string_view text) { return fmt::format("\"{}\"", printable(text)); }

std::string printable_lines(std::string_view text) {
    std::string safe;
    while (true) {
        const auto end = std::min(text.find('\n'), text.size());
        safe += printable(text.substr(0, end), end);
        if (end == text.size()) break;
        safe += '\n';
        text.remove_prefix(end + 1);
    }
    return safe;
}

bool has_control_characters(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (c.valid && is_control(c.value)) return true;
        at += c.bytes;
    }
    return false;
}

}  // namespace compline::text
