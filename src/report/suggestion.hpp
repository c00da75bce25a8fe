#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// The weakest bars and the command that loops them, with all that was asked for. Begins with an
/// empty line; empty where no bars are weakest.
[[nodiscard]] std::string suggestion_text(const practice::Report& report);

}  // namespace compline::report
