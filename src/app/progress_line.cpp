#include "progress_line.hpp"

#include "command.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <utility>

namespace compline::app {

ProgressLine::ProgressLine(std::string what, std::chrono::seconds patience)
    : what_(std::move(what)), patience_(patience), is_terminal_(::isatty(STDERR_FILENO) != 0) {}

ProgressLine::~ProgressLine() {
    if (shown_ < 0) return;
    const std::string blanks(what_.size() + 5, ' ');
    say_as_is("\r" + blanks + "\r");
}

void ProgressLine::show(double share) {
    if (!is_terminal_ || std::chrono::steady_clock::now() - begun_ < patience_) return;
    const auto percent = static_cast<int>(100 * share);
    if (percent == shown_) return;
    say_as_is(fmt::format("\r{}{:3} %", what_, percent));
    shown_ = percent;
}

}  // namespace compline::app
