#pragma once

#include "key.hpp"

#include <string>

namespace compline::app {

// What the ways of calibration share: devices by a player's words, and somebody at a terminal.

/// One line on stderr, redrawn, for who waits at a terminal; to a file or a pipe nothing is said.
class WaitingLine {
  public:
    WaitingLine();
    ~WaitingLine();
    WaitingLine(const WaitingLine&) = delete;
    WaitingLine& operator=(const WaitingLine&) = delete;

    void show(const std::string& words);

  private:
    bool is_terminal_;
    std::string shown_;
};

[[nodiscard]] bool is_enter(const KeyPress& key);

/// Where somebody is at a terminal: says the words, and waits. False: q was pressed, or a stop
/// asked for. Else true at once.
[[nodiscard]] bool enter_pressed(const std::string& words);
/// Whether y was pressed, where somebody is at a terminal; else false at once.
[[nodiscard]] bool yes_pressed(const std::string& words);

}  // namespace compline::app
