#pragma once

#include <compline/practice/report.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::report {

/// A line to be typed: `compline practice CHART --bars 9-12`. What would steer the terminal is left
/// to the reader to put in.
struct CommandLine {
    std::string command = "practice";  ///< empty: the pieces begin with it
    std::string chart;                 ///< its file; empty: the options bring the changes
    std::vector<std::string> pieces;   ///< as a shell takes them, before the options
    std::vector<practice::KeptOption> options;

    /// To be pasted into a shell: lines as wide as a terminal, indented as reports are, broken
    /// between options.
    [[nodiscard]] std::string in_lines() const;
    /// All in one.
    [[nodiscard]] std::string in_one_line() const;
};

/// `compline practice` with all this, in lines.
[[nodiscard]] std::string practice_command(const std::string& chart,
                                           const std::vector<std::string>& pieces,
                                           const std::vector<practice::KeptOption>& options);

/// A word as a shell takes it; one that would steer the terminal is `instead`.
[[nodiscard]] std::string shell_word(const std::string& word, const char* instead);

/// "--tempo 112", or nothing where that is the chart's own.
[[nodiscard]] std::string tempo_piece(time::Bpm tempo, const chart::Chart& chart);

}  // namespace compline::report
