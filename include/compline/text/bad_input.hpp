#pragma once

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace compline::text {

/// Something that was given and cannot be used: an option, a chart, a file, a message. It says
/// where it stands, what was found there and what could stand there, in words for the player,
/// whoever finds it; so that all errors sound alike and a caller can add what it knows of the
/// place.
///
/// what() is "where: found: expected", with a comma before what begins with "expected"; what is
/// empty is left out.
class BadInput : public std::runtime_error {
  public:
    /// `offset`: in bytes from 0, where a text has such a place.
    BadInput(std::string where, std::string found, std::string expected,
             std::optional<std::size_t> offset = std::nullopt);
    /// Where the caller knows the place, and what is wrong says what would be right.
    explicit BadInput(std::string found) : BadInput("", std::move(found), "") {}

    [[nodiscard]] const std::string& where() const { return where_; }
    [[nodiscard]] const std::string& found() const { return found_; }
    [[nodiscard]] const std::string& expected() const { return expected_; }
    [[nodiscard]] std::optional<std::size_t> offset() const { return offset_; }

    /// "found: expected", for who says the place in another way.
    [[nodiscard]] std::string without_place() const;

    /// The same in a wider place: `--click "2 x": character 3`.
    [[nodiscard]] BadInput in(const std::string& wider) const;

  private:
    std::string where_;
    std::string found_;
    std::string expected_;
    std::optional<std::size_t> offset_;
};

/// In a text, whose characters are counted from 1 (code points): "character 3".
[[nodiscard]] BadInput bad_character(std::string_view text, std::size_t offset, std::string found,
                                     std::string expected = "");

/// Among bytes, which are counted from 0 as dumps do: "byte 14".
[[nodiscard]] BadInput bad_byte(std::size_t offset, std::string found, std::string expected = "");

/// The option and its value as messages name them, a long one cut: `--click "2 x"`.
[[nodiscard]] std::string option_place(std::string_view option, std::string_view value);

/// Runs a reader; to what it refuses, the place is added that it cannot know.
template <typename Read>
auto read_at(const std::string& place, Read read) {
    try {
        return read();
    } catch (const BadInput& error) {
        throw error.in(place);
    }
}

}  // namespace compline::text
