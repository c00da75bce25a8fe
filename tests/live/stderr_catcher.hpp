#pragma once

#include <cstdio>
#include <string>

namespace compline::tests {

/// Collects what the process writes to stderr while it lives, below the level of std::cerr, so that
/// C libraries are caught too.
class StderrCatcher {
  public:
    StderrCatcher();
    ~StderrCatcher();
    StderrCatcher(const StderrCatcher&) = delete;
    StderrCatcher& operator=(const StderrCatcher&) = delete;

    /// All that came so far.
    [[nodiscard]] std::string text() const;

  private:
    std::FILE* file_;
    int kept_;
};

}  // namespace compline::tests
