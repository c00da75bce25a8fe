#pragma once

#include <string>

namespace compline::report {

/// How pages look, and what those of weeks and of homework have of their own.
[[nodiscard]] std::string weeks_page_style();

}  // namespace compline::report
