#pragma once

#include "take_page_strip_layout.hpp"

#include <string>

namespace compline::report {

/// The pieces of a strip, one picture behind the other.
[[nodiscard]] std::string strip_pieces(const StripLayout& layout);

}  // namespace compline::report
