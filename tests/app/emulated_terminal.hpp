#pragma once

// What a player would see: the bytes that reach a terminal, laid out as a terminal does. It knows
// what Screen writes and no more (ECMA-48; DEC's automatic wrapping: a full line waits for the next
// character). Every character takes one column.

#include <compline/text/utf8.hpp>

#include <algorithm>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace compline::tests {

class EmulatedTerminal {
  public:
    EmulatedTerminal(std::size_t columns, std::size_t rows) { resize(columns, rows); }

    /// As terminals do that wrap nothing anew: lines are cut, and the lower ones stay that end with
    /// the cursor.
    void resize(std::size_t columns, std::size_t rows) {
        columns_ = columns;
        while (row_ >= rows) scroll();
        lines_.resize(rows);
        for (auto& line : lines_) line.resize(columns, " ");
        column_ = std::min(column_, columns);
    }

    void take(const std::string& bytes) {
        for (std::size_t at = 0; at < bytes.size();) {
            if (bytes[at] == '\x1B') {
                at = obey(bytes, at + 2);
            } else {
                const auto size = text::code_point_at(bytes, at).bytes;
                put(bytes.substr(at, size));
                at += size;
            }
        }
    }

    /// Its lines from the top, without blanks at their ends, nor empty ones at the bottom.
    [[nodiscard]] std::vector<std::string> seen() const {
        std::vector<std::string> seen;
        for (const auto& cells : lines_) {
            std::string line;
            for (const auto& cell : cells) line += cell;
            seen.push_back(line.substr(0, line.find_last_not_of(' ') + 1));
        }
        while (!seen.empty() && seen.back().empty()) seen.pop_back();
        return seen;
    }

    /// What has scrolled away above, in order.
    [[nodiscard]] const std::vector<std::string>& scrolled() const { return scrolled_; }

  private:
    void put(const std::string& character) {
        if (character == "\r") {
            column_ = 0;
        } else if (character == "\n") {
            column_ = 0;  // the line discipline puts a carriage return before it
            next_row();
        } else {
            if (column_ == columns_) {
                column_ = 0;
                next_row();
            }
            lines_[row_][column_++] = character;
        }
    }

    /// A sequence from behind its "ESC [" on; gives where it ends.
    std::size_t obey(const std::string& bytes, std::size_t from) {
        const auto last = bytes.find_first_not_of("0123456789;?", from);
        const auto parameter = bytes.substr(from, last - from);
        const char what = bytes.at(last);
        if (what == 'A') {
            row_ -= std::min(row_, std::stoul(parameter));
        } else if (what == 'H') {
            row_ = column_ = 0;
        } else if (what == 'K' || what == 'J') {
            clear(what == 'J', parameter == "2");
        } else if (what != 'm' && what != 'h' && what != 'l') {
            throw std::runtime_error("a sequence that no test knows");
        }
        return last + 1;
    }

    void clear(bool below, bool all) {
        const auto end = below ? lines_.size() : row_ + 1;
        for (auto row = all ? 0 : row_; row < end; ++row) {
            // A full line's cursor still stands on its last character.
            const auto first = all || row > row_ ? 0 : std::min(column_, columns_ - 1);
            std::fill(lines_[row].begin() + static_cast<std::ptrdiff_t>(first), lines_[row].end(),
                      " ");
        }
    }

    void next_row() {
        if (row_ + 1 == lines_.size()) {
            scroll();
            lines_.emplace_back(columns_, " ");
        }
        ++row_;
    }

    void scroll() {
        std::string line;
        for (const auto& cell : lines_.front()) line += cell;
        scrolled_.push_back(line.substr(0, line.find_last_not_of(' ') + 1));
        lines_.erase(lines_.begin());
        --row_;
    }

    std::vector<std::vector<std::string>> lines_;
    std::vector<std::string> scrolled_;
    std::size_t columns_ = 0;
    std::size_t row_ = 0;
    std::size_t column_ = 0;
};

}  // namespace compline::tests
