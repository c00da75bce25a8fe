#pragma once

// A terminal without a screen, for tests: what a program writes to it can be read, and keys typed.

#include <fcntl.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <cstring>
#include <stdexcept>
#include <string>

namespace compline::tests {

/// What can be read at once.
inline std::string all_of(int fd) {
    std::string text;
    std::array<char, 4096> part{};
    for (pollfd ready{fd, POLLIN, 0}; ::poll(&ready, 1, 0) == 1 && (ready.revents & POLLIN) != 0;) {
        const auto size = ::read(fd, part.data(), part.size());
        if (size <= 0) break;
        text.append(part.data(), static_cast<std::size_t>(size));
    }
    return text;
}

class PseudoTerminal {
  public:
    PseudoTerminal(unsigned short columns, unsigned short rows)
        : outside_(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC)) {
        if (outside_ < 0 || ::grantpt(outside_) != 0 || ::unlockpt(outside_) != 0) {
            throw std::runtime_error("no pseudo-terminal to be had");
        }
        inside_ = ::open(::ptsname(outside_), O_RDWR | O_NOCTTY | O_CLOEXEC);
        if (inside_ < 0) throw std::runtime_error("the pseudo-terminal does not open");
        resize(columns, rows);
        // As bytes come, so shall they be compared: no carriage return put before a line feed.
        termios mode = this->mode();
        mode.c_oflag &= ~static_cast<tcflag_t>(OPOST);
        ::tcsetattr(inside_, TCSANOW, &mode);
    }
    ~PseudoTerminal() {
        ::close(inside_);
        ::close(outside_);
    }
    PseudoTerminal(const PseudoTerminal&) = delete;
    PseudoTerminal& operator=(const PseudoTerminal&) = delete;

    /// Where the program reads and writes.
    [[nodiscard]] int inside() const { return inside_; }

    /// What was written since the last call.
    [[nodiscard]] std::string received() const { return all_of(outside_); }

    void type(const std::string& keys) const {
        if (::write(outside_, keys.data(), keys.size()) < 0) throw std::runtime_error("not typed");
    }

    /// Keys typed that nobody has read.
    [[nodiscard]] int waiting() const {
        int bytes = 0;
        ::ioctl(inside_, FIONREAD, &bytes);
        return bytes;
    }

    void resize(unsigned short columns, unsigned short rows) const {
        winsize size{};
        size.ws_col = columns;
        size.ws_row = rows;
        ::ioctl(inside_, TIOCSWINSZ, &size);
    }

    [[nodiscard]] termios mode() const {
        termios mode{};
        ::tcgetattr(inside_, &mode);
        return mode;
    }

  private:
    int outside_;
    int inside_ = -1;
};

inline bool same(const termios& a, const termios& b) {
    return a.c_iflag == b.c_iflag && a.c_oflag == b.c_oflag && a.c_cflag == b.c_cflag &&
           a.c_lflag == b.c_lflag && std::memcmp(a.c_cc, b.c_cc, sizeof a.c_cc) == 0;
}

struct Pipe {
    Pipe() {
        std::array<int, 2> ends{};
        if (::pipe(ends.data()) != 0) throw std::runtime_error("no pipe to be had");
        from = ends[0];
        to = ends[1];
    }
    ~Pipe() {
        ::close(from);
        ::close(to);
    }
    Pipe(const Pipe&) = delete;
    Pipe& operator=(const Pipe&) = delete;
    int from = -1;
    int to = -1;
};

}  // namespace compline::tests
