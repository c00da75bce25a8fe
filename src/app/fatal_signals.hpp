#pragma once

namespace compline::app {

class Keys;
class Screen;

// However the program ends, the terminal is left as it was found, and no unfinished file stays
// behind. Where destructors do not run, because a signal ends it, a handler sees to that; then the
// signal does what it always does, so that the status and a core dump stay what they are.

/// Handles the signals that end a program. Left alone is what is ignored (nohup), and what somebody
/// else handles already, a sanitizer say. Call once, in the main thread.
void watch_fatal_signals();

/// Puts all right, and lets the signal end the program as soon as its handler returns: a handler by
/// itself, and for the handlers of others. Async-signal-safe.
void end_by(int signal) noexcept;

/// While it lives, keys and screen are put back by end_by(). One at a time in a process.
class TerminalInUse {
  public:
    TerminalInUse(Keys& keys, Screen& screen) noexcept;
    ~TerminalInUse();
    TerminalInUse(const TerminalInUse&) = delete;
    TerminalInUse& operator=(const TerminalInUse&) = delete;
};

}  // namespace compline::app
