#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace compline::yaml {

/// A file's text behind the mark with which some editors begin one.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view text);

/// The text of a chart file and where things are in it. Offsets are bytes from 0, places are lines
/// and columns from 1, columns in code points.
///
/// There are two texts of the same length: the one in the file, by which places are counted, and a
/// readable one, in which characters that no chart may hold have been blanked out so that the
/// reading can go on behind them.
class SourceText {
  public:
    struct Place {
        int line = 1;
        int column = 1;
    };

    /// `text` without a byte order mark; it must outlive this object.
    explicit SourceText(std::string_view text);

    [[nodiscard]] std::string_view in_file() const { return in_file_; }
    [[nodiscard]] const std::string& readable() const { return readable_; }
    void blank_out(std::size_t offset, std::size_t bytes);

    /// Offsets behind the end count as the end.
    [[nodiscard]] Place place(std::size_t offset) const;

    /// Index, from 0, of the line an offset is in.
    [[nodiscard]] std::size_t line_index(std::size_t offset) const;
    [[nodiscard]] std::size_t lines() const { return starts_.size(); }
    [[nodiscard]] std::size_t line_start(std::size_t index) const { return starts_[index]; }
    /// A line of the readable text without its end (LF or CR LF).
    [[nodiscard]] std::string_view line(std::size_t index) const;

  private:
    std::string_view in_file_;
    std::string readable_;
    std::vector<std::size_t> starts_;
};

}  // namespace compline::yaml
