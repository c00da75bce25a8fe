#pragma once

#include "command.hpp"

#include <string>
#include <vector>

namespace compline::app {

/// Reads a command line and runs the command that it asks for, or prints help or the version. What
/// the command throws comes through; what is wrong with the line itself is said on stderr.
///
/// The one place that speaks CLI11: its header alone takes longer to compile than any of ours.
[[nodiscard]] Status run_command_line(const std::vector<ProgramCommand>& commands, int argc,
                                      char** argv);

}  // namespace compline::app
