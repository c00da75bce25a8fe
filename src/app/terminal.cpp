#include "terminal.hpp"

#include "command.hpp"

#include <compline/report/columns.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdlib>

namespace compline::app {

namespace {

/// ECMA-48, and DEC's private mode 25 for the cursor: every terminal that is not "dumb" has them.
constexpr std::string_view hide_cursor = "\x1B[?25l";
constexpr std::string_view show_cursor = "\x1B[?25h";
constexpr std::string_view clear_to_end_of_line = "\x1B[K";
constexpr std::string_view clear_below = "\x1B[J";
constexpr std::string_view home = "\x1B[H";

constexpr std::size_t most_printed = 100;  ///< kept for drawing anew; higher than most terminals

bool is_set(const char* value) { return value != nullptr && *value != '\0'; }

bool knows_escape_sequences(const char* term) {
    return is_set(term) && std::string_view(term) != "dumb";
}

/// A line over what stood there. It is cleared behind the text and not before it, so that it never
/// shows empty; a line that fills the terminal has nothing behind it, and there the sequence would
/// take the last character (the cursor waits on it).
std::string line_over(const std::string& line, int columns) {
    const int taken = report::columns_of(line);
    const bool full = taken > 0 && taken % columns == 0;
    return fmt::format("\r{}{}\n", line, full ? "" : clear_to_end_of_line);
}

/// Lines of the terminal that a line takes which is broken at blanks: a long word wraps.
int height(const std::vector<std::string>& lines, int columns) {
    int height = 0;
    for (const auto& line : lines) {
        height += std::max(1, (report::columns_of(line) + columns - 1) / columns);
    }
    return height;
}

/// Line by line from the cursor's on, which comes back to where it was. What is cleared as a whole
/// window, some terminals keep among the lines that have scrolled away.
std::string wiped(std::size_t lines) {
    std::string bytes = "\r";
    for (std::size_t line = 0; line < lines; ++line) {
        bytes += line > 0 ? "\n" : "";
        bytes += clear_to_end_of_line;
    }
    return lines > 1 ? bytes + fmt::format("\x1B[{}A", lines - 1) : bytes;
}

/// Of all windows. One that became smaller and larger again between two looks has its old size, and
/// yet its lines are no longer where they were: so the changes are counted.
std::atomic<int> size_changes{0};
static_assert(std::atomic<int>::is_always_lock_free, "a signal handler may not lock");

void count_change(int /*signal*/) { size_changes.fetch_add(1); }

}  // namespace

Screen::Screen() noexcept : Screen(STDERR_FILENO, std::getenv("TERM"), std::getenv("NO_COLOR")) {}

Screen::Screen(int fd, const char* term, const char* no_color) noexcept
    : fd_(fd),
      draws_(::isatty(fd) != 0 && knows_escape_sequences(term)),
      attributes_(draws_ && !is_set(no_color)) {
    struct sigaction action {};
    action.sa_handler = &count_change;
    action.sa_flags = SA_RESTART;
    ::sigemptyset(&action.sa_mask);
    ::sigaction(SIGWINCH, &action, &before_);
}

Screen::~Screen() {
    close();
    ::sigaction(SIGWINCH, &before_, nullptr);
}

int Screen::columns() const { return size().columns; }

int Screen::lines() const { return size().lines(); }

void Screen::draw(const std::vector<std::string>& lines) {
    if (!draws_) return;
    const Size now = size();
    auto fitted = lines;
    fitted.resize(std::min(lines.size(), static_cast<std::size_t>(now.lines())));
    for (auto& line : fitted) line = report::cut_to_columns(line, now.columns);
    const bool same_size = shown_.empty() || now == drawn_size_;
    if (same_size && fitted == shown_) return;

    std::string bytes(cursor_hidden_ ? "" : hide_cursor);
    drawn_size_ = now;
    bytes += same_size ? to_top() : anew(now, fitted.size());
    bytes += block(fitted, !same_size);
    cursor_hidden_ = true;
    shown_ = std::move(fitted);
    write(bytes);
}

void Screen::print(std::string_view line) {
    const auto safe = text::printable_lines(line);
    if (!draws_) {
        if (takes_bytes(0)) write(safe + "\n");
        return;
    }
    printed_.push_back(safe);
    if (printed_.size() > most_printed) printed_.pop_front();
    const Size now = size();
    if (!shown_.empty() && now != drawn_size_) {
        write(anew(now, shown_.size()));
        shown_.clear();  // the next draw() knows what stands there at this size
        return;
    }
    const bool over = !shown_.empty();
    std::string bytes = over ? to_top() : "";
    for (const auto& part : report::in_lines(safe, now.columns)) {
        bytes += over ? line_over(part, now.columns) : part + "\n";
    }
    write(bytes + block(shown_, true));
}

void Screen::close() {
    if (!shown_.empty()) write(to_top() + wiped(shown_.size()));
    shown_.clear();
    if (cursor_hidden_) write(show_cursor);
    cursor_hidden_ = false;
}

void Screen::restore() noexcept {
    if (!cursor_hidden_) return;
    cursor_hidden_ = false;
    // A terminal that takes nothing (a connection that hangs) must not hold up a program that ends.
    constexpr int patience_ms = 50;
    if (takes_bytes(patience_ms)) write(show_cursor);
}

bool Screen::takes_bytes(int patience_ms) const noexcept {
    pollfd ready{fd_, POLLOUT, 0};
    return ::poll(&ready, 1, patience_ms) == 1 && (ready.revents & POLLOUT) != 0;
}

Screen::Size Screen::size() const {
    winsize window{};
    const bool known = ::ioctl(fd_, TIOCGWINSZ, &window) == 0;
    const int changes = size_changes.load();
    if (!known || window.ws_col == 0 || window.ws_row == 0) return {80, 24, changes};
    return {window.ws_col, window.ws_row, changes};
}

std::string Screen::to_top() const {
    return shown_.empty() ? "\r" : fmt::format("\r\x1B[{}A", shown_.size());
}

/// The block's lines from its top on: all of them, or those that are not there yet.
std::string Screen::block(const std::vector<std::string>& lines, bool all) const {
    std::string bytes;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const bool there = !all && i < shown_.size() && shown_[i] == lines[i];
        bytes += there ? std::string("\n") : line_over(lines[i], drawn_size_.columns);
    }
    if (lines.size() < shown_.size()) bytes += clear_below;
    return bytes;
}

/// Nobody knows how a terminal wraps its lines anew when it changes its size: all is drawn again,
/// the last printed lines that fit above the block first. Above a block that fills the window they
/// scroll away again: some terminals had brought them back, and they would be lost.
std::string Screen::anew(Size now, std::size_t block_lines) const {
    const int below = static_cast<int>(block_lines);
    int room = now.rows - 1 - (below < now.lines() ? below : 0);
    std::string above;
    for (std::size_t line = printed_.size(); line-- > 0;) {
        const auto parts = report::in_lines(printed_[line], now.columns);
        room -= height(parts, now.columns);
        if (room < 0) break;
        std::string text;
        for (const auto& part : parts) text += part + "\n";
        above.insert(0, text);
    }
    const auto window = static_cast<std::size_t>(now.rows);
    return std::string(home) + wiped(window) + above;
}

/// All of it, whatever signals come; a terminal that is gone cannot be helped.
void Screen::write(std::string_view bytes) const noexcept {
    while (!bytes.empty()) {
        const auto written = ::write(fd_, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
}

}  // namespace compline::app
