#pragma once

#include "sheet.hpp"

#include <string>
#include <string_view>

namespace compline::report {

/// The opening tag of a drawing as wide as the paper, in mm.
[[nodiscard]] std::string svg_tag(const SheetSize& paper, double height);

/// An HTML file of drawings, one sheet of paper a page when printed. The title is escaped here.
[[nodiscard]] std::string page_of(std::string_view title, const SheetSize& paper,
                                  std::string_view drawings);

}  // namespace compline::report
