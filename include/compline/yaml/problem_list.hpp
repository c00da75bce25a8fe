#pragma once

#include <compline/yaml/source_text.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::yaml {

/// One thing wrong with a file, and where: line and column from 1, columns in code points; 0 for
/// the file as a whole. `what` says what was found, what was expected and what to do.
struct Problem {
    int line = 1;
    int column = 1;
    std::string what;
};

/// The problems of one run over a file: collected in any order, given out in order of place, at
/// most 100 of them.
class ProblemList {
  public:
    static constexpr std::size_t most = 100;

    explicit ProblemList(const SourceText& source) : source_(source) {}

    /// Dropped when the line has been silenced.
    void add(std::size_t offset, const std::string& what);

    /// A problem of the characters themselves. Whatever else its line gets wrong is most likely a
    /// consequence, so the line is silenced.
    void add_and_silence_line(std::size_t offset, const std::string& what);

    /// The error that ends the list: stays last whatever its place. Dropped when characters were
    /// refused before: then it may well be their consequence.
    void end_with(std::size_t offset, const std::string& what);

    [[nodiscard]] bool empty() const { return count_ == 0 && !last_; }
    /// How many were added; those dropped count too, since something was said about their line.
    [[nodiscard]] std::size_t count() const { return count_ + dropped_; }

    /// All problems by place; the rest above `most` as a count in a last one without a place.
    [[nodiscard]] std::vector<Problem> in_order() const;

  private:
    void store(std::size_t offset, const std::string& what);
    [[nodiscard]] bool is_silenced(std::size_t offset) const;

    const SourceText& source_;
    std::vector<Problem> problems_;
    std::size_t count_ = 0;
    std::size_t dropped_ = 0;
    std::vector<std::size_t> silenced_;  ///< line indices, rising
    std::optional<Problem> last_;
};

}  // namespace compline::yaml
