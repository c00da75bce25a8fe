#pragma once

#include "questions.hpp"

#include <string>

namespace compline::app {

/// A conversation with whoever sits at the terminal: questions on stderr, answers by a line each
/// from a descriptor. A stop that is asked for (Ctrl-C; see StopSignals) ends it, as does the end
/// of the input. Nothing is read beyond what was asked for, so that keys pressed later reach
/// whoever waits for them.
class TerminalTalk : public Talk {
  public:
    explicit TerminalTalk(int input);
    ~TerminalTalk() override { begin_line(); }
    TerminalTalk(const TerminalTalk&) = delete;
    TerminalTalk& operator=(const TerminalTalk&) = delete;

    void tell(const std::string& lines) override;
    void ask(const std::string& line) override;
    std::optional<std::string> line() override;
    std::optional<std::string> line_within(time::Seconds at_most) override;
    [[nodiscard]] bool ended() const override { return ended_; }

  private:
    void begin_line();

    int input_;
    bool echoes_;        // a terminal shows what is typed, and ends the line
    std::string typed_;  // of a line that has not come to its end
    bool ended_ = false;
    bool asked_ = false;  // the cursor stands behind a question
};

}  // namespace compline::app
