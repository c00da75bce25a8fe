#pragma once

#include "sheet.hpp"

#include <string>
#include <string_view>

namespace compline::report {

/// What a page is made for above all.
enum class For { paper, screens };

/// An HTML file that needs nothing else and loads nothing: its policy forbids scripts and whatever
/// is not in the file itself. The title is escaped here; `style` is CSS, `body` markup made of
/// escaped words.
[[nodiscard]] std::string html_file(std::string_view title, For whom, std::string_view style,
                                    std::string_view body);

/// The opening tag of a drawing as wide as the paper, in mm.
[[nodiscard]] std::string svg_tag(const SheetSize& paper, double height);

/// An HTML file of drawings, one sheet of paper a page when printed. The title is escaped here.
[[nodiscard]] std::string page_of(std::string_view title, const SheetSize& paper,
                                  std::string_view drawings);

}  // namespace compline::report
