#pragma once

#include "key.hpp"

#include <termios.h>
#include <unistd.h>

#include <optional>

namespace compline::app {

/// Single keys from a terminal, as they are pressed. While it lives the terminal neither echoes
/// nor waits for a line, and Ctrl-S cannot stop the output; Ctrl-C stays a signal. Ctrl-Z does
/// nothing: a band cannot be put in the background.
///
/// An input that is no terminal, or one that belongs to another program (`compline ... &`), is
/// never touched nor read.
class Keys {
  public:
    explicit Keys(int fd = STDIN_FILENO);
    /// Puts the terminal back as it was; what was pressed and not read is dropped.
    ~Keys();
    Keys(const Keys&) = delete;
    Keys& operator=(const Keys&) = delete;

    /// The next key, if one was pressed; several come one by one. Never waits.
    [[nodiscard]] std::optional<KeyPress> read();

    /// Puts the terminal back, for a handler of fatal signals: async-signal-safe. Nothing is read
    /// afterwards.
    void restore() noexcept;

  private:
    int fd_;
    volatile bool active_ = false;
    termios before_{};
    KeyReader reader_;
};

}  // namespace compline::app
