#pragma once

#include <compline/practice/report.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::report {

/// `compline practice` with all this, to be pasted into a shell: lines as wide as a terminal,
/// indented as reports are, broken between options.
/// chart: its file; empty: the options bring the changes. pieces: as a shell takes them, before the
/// options. What would steer the terminal is left to the reader to put in.
[[nodiscard]] std::string practice_command(const std::string& chart,
                                           const std::vector<std::string>& pieces,
                                           const std::vector<practice::KeptOption>& options);

/// The same of another command ("compline compare") and its words, as a shell takes them.
[[nodiscard]] std::string command_lines(const std::string& command,
                                        const std::vector<std::string>& pieces);

/// A word as a shell takes it; one that would steer the terminal is `instead`.
[[nodiscard]] std::string shell_word(const std::string& word, const char* instead);

/// "--tempo 112", or nothing where that is the chart's own.
[[nodiscard]] std::string tempo_piece(time::Bpm tempo, const chart::Chart& chart);

}  // namespace compline::report
