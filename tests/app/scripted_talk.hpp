#pragma once

#include "../../src/app/questions.hpp"

#include <deque>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace compline::tests {

/// A player who types these lines, each when he is waited for; all that he was told is kept.
class ScriptedTalk : public app::Talk {
  public:
    explicit ScriptedTalk(std::deque<std::string> lines) : lines_(std::move(lines)) {}

    void tell(const std::string& lines) override { said += lines + "\n"; }
    void ask(const std::string& line) override {
        said += line + "\n";
        waited_ = 0;
    }
    std::optional<std::string> line() override {
        if (lines_.empty()) {
            ended_ = true;
            return std::nullopt;
        }
        auto line = lines_.front();
        lines_.pop_front();
        return line;
    }
    /// While he plays he types nothing; lines that begin with "!" he types when nothing has come
    /// for a while.
    std::optional<std::string> line_within(time::Seconds) override {
        constexpr int a_while = 40;
        if (lines_.empty() || lines_.front().rfind('!', 0) != 0 || ++waited_ < a_while) {
            return std::nullopt;
        }
        return line()->substr(1);
    }
    [[nodiscard]] bool ended() const override { return ended_; }

    [[nodiscard]] std::size_t left() const { return lines_.size(); }

    std::string said;

  private:
    std::deque<std::string> lines_;
    bool ended_ = false;
    int waited_ = 0;  // since it was asked
};

}  // namespace compline::tests
