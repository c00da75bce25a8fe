#include "keys.hpp"

namespace compline::app {

namespace {

/// To change a terminal from the background would stop the whole program (SIGTTOU). A terminal
/// that is not the one we were started from knows no background.
bool in_foreground(int fd) {
    const pid_t owner = ::tcgetpgrp(fd);
    return owner == -1 || owner == ::getpgrp();
}

/// POSIX, chapter 11. VMIN and VTIME of 0: read() gives what is there, which may be nothing.
termios for_single_keys(termios mode) {
    mode.c_lflag &= ~static_cast<tcflag_t>(ECHO | ICANON | IEXTEN);
    mode.c_iflag &= ~static_cast<tcflag_t>(IXON);
    mode.c_cc[VMIN] = 0;
    mode.c_cc[VTIME] = 0;
    mode.c_cc[VSUSP] = _POSIX_VDISABLE;
    return mode;
}

}  // namespace

Keys::Keys(int fd) : fd_(fd) {
    const bool terminal = ::tcgetattr(fd, &before_) == 0;
    if (!terminal || !in_foreground(fd)) return;
    const termios mode = for_single_keys(before_);
    active_ = ::tcsetattr(fd, TCSANOW, &mode) == 0;
}

Keys::~Keys() { restore(); }

std::optional<KeyPress> Keys::read() {
    if (!active_ || !in_foreground(fd_)) return std::nullopt;
    for (char byte = 0; ::read(fd_, &byte, 1) == 1;) {
        if (const auto key = reader_.add(byte)) return key;
    }
    reader_.nothing_came();
    return std::nullopt;
}

void Keys::restore() noexcept {
    if (!active_) return;
    active_ = false;
    if (!in_foreground(fd_)) return;
    ::tcflush(fd_, TCIFLUSH);
    ::tcsetattr(fd_, TCSANOW, &before_);
}

}  // namespace compline::app
