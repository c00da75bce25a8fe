#pragma once

#include <chrono>
#include <string>

namespace compline::app {

/// How far a long work is, in a line on stderr for a player who waits at a terminal; wiped at the
/// end. To a file or a pipe nothing is said.
class ProgressLine {
  public:
    static constexpr std::chrono::seconds at_once{0};
    static constexpr std::chrono::seconds after_a_second{1};

    /// `what`: before the per cent, such as "planning: ".
    explicit ProgressLine(std::string what = "", std::chrono::seconds patience = at_once);
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    /// `share`: 0 to 1.
    void show(double share);

  private:
    std::string what_;
    std::chrono::seconds patience_;
    bool is_terminal_;
    std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
    int shown_ = -1;  ///< per cent
};

}  // namespace compline::app
