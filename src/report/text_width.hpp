#pragma once

#include <string>
#include <string_view>

namespace compline::report {

/// How wide a text is in the page's bold serifs, in multiples of its size: an upper estimate, since
/// nobody knows which font a reader has.
[[nodiscard]] double width_in_ems(std::string_view text);

/// The text, or its beginning and "…" where it is wider than so many ems.
[[nodiscard]] std::string fitting(const std::string& text, double ems);

}  // namespace compline::report
