#pragma once

#include <string>

namespace compline::tests {

struct CommandResult {
    int status = 0;      ///< as a shell gives it: 128 + n when signal n ended the command
    std::string output;  ///< standard output and standard error, as they came
};

/// Runs a shell command line to its end.
CommandResult run(const std::string& command);

/// One argument of a command line, whatever characters it holds.
std::string shell_quote(const std::string& argument);

/// Whether an outside program is here (a name looked up on the path, or a path). Absent: prints
/// "SKIPPED: ..." and returns false; with COMPLINE_REQUIRE_DATA=1 the test fails instead.
bool outside_tool(const std::string& name);

/// The same for a module of Debian's own /usr/bin/python3.
bool outside_python_module(const std::string& module);

}  // namespace compline::tests
