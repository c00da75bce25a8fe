#pragma once

#include <csignal>
#include <cstddef>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace compline::app {

/// The player's screen: a block of lines redrawn in place, at the bottom of what was printed, and
/// lines printed above it, which scroll up and stay. Each redraw is one write of the lines that
/// changed, none where nothing did, so nothing flickers.
///
/// Where the output is no terminal, or one that knows no escape sequences (TERM unset, empty or
/// "dumb"), no block is drawn and no escape sequence is written; printed lines are still printed.
class Screen {
  public:
    /// On stderr, in this environment.
    Screen() noexcept;
    /// `term` and `no_color` as the environment has TERM and NO_COLOR (null: unset). With the
    /// latter set (and not empty) there are no attributes.
    Screen(int fd, const char* term, const char* no_color) noexcept;
    /// Wipes the block and shows the cursor again.
    ~Screen();
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    [[nodiscard]] bool draws() const { return draws_; }
    /// Whether bold, dim and reverse may be used in the block.
    [[nodiscard]] bool attributes() const { return attributes_; }
    /// Of the terminal as it is now; 80 where that is not known.
    [[nodiscard]] int columns() const;
    /// Lines that a block may have: one less than the terminal, for the cursor.
    [[nodiscard]] int lines() const;

    /// Shows the block instead of the one before. Its lines may hold escape sequences for
    /// attributes, nothing else that is not text; a line wider than the terminal is cut, and lines
    /// that the terminal has no room for are left out. A terminal that changed its size is drawn
    /// anew.
    void draw(const std::vector<std::string>& lines);

    /// What was printed last, the newest last; a hundred lines at most.
    [[nodiscard]] const std::deque<std::string>& printed() const { return printed_; }

    /// Prints a line above the block, made safe for a terminal and broken at blanks where it is
    /// wider. Where no block is drawn and nobody takes the line, it is left out: the music does not
    /// wait.
    void print(std::string_view line);

    /// Wipes the block and shows the cursor; the next draw() begins a new block here.
    void close();

    /// Shows the cursor again, for a handler of fatal signals: async-signal-safe.
    void restore() noexcept;

  private:
    struct Size {
        int columns;
        int rows;
        int changes;  ///< of sizes until now
        /// Of a block; the cursor needs the line below it.
        [[nodiscard]] int lines() const { return rows > 1 ? rows - 1 : 1; }
        bool operator==(const Size&) const = default;
    };

    [[nodiscard]] Size size() const;
    [[nodiscard]] std::string to_top() const;
    [[nodiscard]] std::string block(const std::vector<std::string>& lines, bool all) const;
    [[nodiscard]] std::string anew(Size now, std::size_t block_lines) const;
    void write(std::string_view bytes) const noexcept;
    [[nodiscard]] bool takes_bytes(int patience_ms) const noexcept;

    int fd_;
    bool draws_;
    bool attributes_;
    volatile bool cursor_hidden_ = false;
    Size drawn_size_{0, 0, 0};
    struct sigaction before_ {};
    std::vector<std::string> shown_;   ///< the block as it stands; the cursor is on the line below
    std::deque<std::string> printed_;  ///< the last lines above it, for drawing anew
};

}  // namespace compline::app
