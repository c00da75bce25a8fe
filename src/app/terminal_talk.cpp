#include "terminal_talk.hpp"

#include "accidentals.hpp"
#include "command.hpp"
#include "stop_signals.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>
#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <cmath>
#include <utility>

namespace compline::app {

namespace {

/// A signal that came just before the waiting began is seen after this long.
constexpr time::Seconds look_again{0.1};
/// Nobody types a longer one.
constexpr std::size_t longest_line = 4096;

std::string in_columns(const std::string& text) {
    return fmt::format("{}", fmt::join(report::in_lines(text, report::terminal_columns), "\n"));
}

bool has_input(int fd, time::Seconds at_most) {
    pollfd ready{fd, POLLIN, 0};
    return ::poll(&ready, 1, static_cast<int>(std::ceil(at_most.milliseconds()))) == 1;
}

}  // namespace

TerminalTalk::TerminalTalk(int input) : input_(input), echoes_(::isatty(input) == 1) {}

void TerminalTalk::begin_line() {
    if (std::exchange(asked_, false)) say_as_is("\n");
}

void TerminalTalk::tell(const std::string& lines) {
    begin_line();
    say(in_columns(lines));
}

void TerminalTalk::ask(const std::string& line) {
    begin_line();
    auto shown = in_columns(line);
    while (!shown.empty() && shown.back() == ' ') shown.pop_back();
    say_as_is(as_shown(text::printable_lines(shown)) + ' ');
    asked_ = true;
}

std::optional<std::string> TerminalTalk::line() {
    while (!ended_) {
        if (auto line = line_within(look_again)) return line;
    }
    return std::nullopt;
}

std::optional<std::string> TerminalTalk::line_within(time::Seconds at_most) {
    if (stop_was_asked()) ended_ = true;
    if (ended_ || !has_input(input_, at_most)) return std::nullopt;
    char byte = 0;
    while (has_input(input_, time::Seconds(0))) {
        const auto size = ::read(input_, &byte, 1);
        if (size < 0 && errno == EINTR) return std::nullopt;
        if (size <= 0) {
            ended_ = true;
            return typed_.empty() ? std::nullopt : std::optional(std::exchange(typed_, {}));
        }
        if (byte == '\n') {
            asked_ = !echoes_;
            return std::exchange(typed_, {});
        }
        if (typed_.size() < longest_line) typed_ += byte;
    }
    return std::nullopt;
}

}  // namespace compline::app
