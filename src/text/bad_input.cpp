#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::text {

namespace {

std::string joined(const std::string& a, const std::string& b, std::string_view joint) {
    if (a.empty() || b.empty()) return a + b;
    return fmt::format("{}{}{}", a, joint, b);
}

/// "found 0x90, expected 0x80", "\"x\" is no beat: write 1 to 4".
std::string in_words(const std::string& found, const std::string& expected) {
    return joined(found, expected, expected.starts_with("expected ") ? ", " : ": ");
}

}  // namespace

BadInput::BadInput(std::string where, std::string found, std::string expected,
                   std::optional<std::size_t> offset)
    : std::runtime_error(joined(where, in_words(found, expected), ": ")),
      where_(std::move(where)),
      found_(std::move(found)),
      expected_(std::move(expected)),
      offset_(offset) {}

std::string BadInput::without_place() const { return in_words(found_, expected_); }

BadInput BadInput::in(const std::string& wider) const {
    return {joined(wider, where_, ": "), found_, expected_, offset_};
}

BadInput bad_character(std::string_view text, std::size_t offset, std::string found,
                       std::string expected) {
    const auto place = fmt::format("character {}", count_code_points(text.substr(0, offset)) + 1);
    return {place, std::move(found), std::move(expected), offset};
}

BadInput bad_byte(std::size_t offset, std::string found, std::string expected) {
    return {fmt::format("byte {}", offset), std::move(found), std::move(expected), offset};
}

std::string option_place(std::string_view option, std::string_view value) {
    return fmt::format("{} {}", option, quoted(value));
}

}  // namespace compline::text
