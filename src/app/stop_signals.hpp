#pragma once

#include <array>
#include <csignal>

namespace compline::app {

/// While it lives, Ctrl-C (and the signals that end a program or take its terminal away) ask for a
/// stop instead of making one: the take is kept and the report printed. Asked a second time they do
/// what they always do (see fatal_signals.hpp). One at a time in a process.
class StopSignals {
  public:
    StopSignals();
    ~StopSignals();
    StopSignals(const StopSignals&) = delete;
    StopSignals& operator=(const StopSignals&) = delete;

  private:
    static constexpr std::array signals{SIGINT, SIGTERM, SIGHUP};
    std::array<struct sigaction, signals.size()> before_{};
};

/// Whether a stop was asked for since the StopSignals that lives was made.
[[nodiscard]] bool stop_was_asked();

}  // namespace compline::app
