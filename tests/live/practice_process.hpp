#pragma once

#include "../../tools/live.d/background_program.hpp"
#include "app/program.hpp"

#include <optional>
#include <string>
#include <vector>

namespace compline::tests {

/// `compline practice ...` in the background, as a player runs it: to be signalled, waited for and
/// read. Ends (SIGKILL) with this object at the latest, and with the test.
class PracticeProcess {
  public:
    /// terminal: a descriptor that is to be its standard input and standard error; its report goes
    /// to a file all the same. command: another one that plays.
    explicit PracticeProcess(const std::vector<std::string>& arguments,
                             std::optional<int> terminal = std::nullopt,
                             const std::string& command = "practice");

    void signal(int number) const { program_.signal(number); }

    /// Until it ends; its status (128 + n when signal n ended it) and what it wrote. It is killed,
    /// and the status -1, when it takes too long.
    Ran wait(double seconds = 60);

    /// The settings of whoever runs it; none where there are none.
    [[nodiscard]] std::string settings() const;

    /// What it wrote to standard error until now.
    [[nodiscard]] std::string err() const;

  private:
    TemporaryFolder folder_;
    outside::BackgroundProgram program_;
};

}  // namespace compline::tests
