#pragma once

#include <CLI/CLI.hpp>

#include <string>

namespace compline::app {

/// Sets how help is worded, for the program and the commands added to it afterwards.
void word_help(CLI::App& cli);

/// For the commands added so far: lists them under a name of ours, and refuses empty values
/// (`--tempo ""` is a mistake, not the default).
void settle_commands(CLI::App& cli);

/// What is wrong with a command line, in a line or two, and where to read on.
[[nodiscard]] std::string usage_problem(const CLI::App& cli, const CLI::ParseError& error);

}  // namespace compline::app
