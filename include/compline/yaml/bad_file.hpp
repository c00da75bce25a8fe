#pragma once

#include <compline/yaml/problem_list.hpp>

#include <stdexcept>
#include <string>
#include <vector>

namespace compline::yaml {

/// A file that cannot be read; all its problems of one run, in order of place. what() has a line
/// each: "file:line:column: words".
class BadFile : public std::runtime_error {
  public:
    BadFile(const std::string& file, std::vector<Problem> problems);
    [[nodiscard]] const std::vector<Problem>& problems() const { return problems_; }

  private:
    std::vector<Problem> problems_;
};

/// A place in a file as messages name it: "file:line:column".
[[nodiscard]] std::string place_in(const std::string& file, int line, int column);

}  // namespace compline::yaml
