#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::text {

// Lists of words in messages, and the words that somebody may have meant.

/// "A", "A and B", "A, B and C"; after 12 words "and 7 more".
[[nodiscard]] std::string listed(const std::vector<std::string>& words,
                                 std::string_view joint = "and");

/// The known word that a mistyped one most likely meant: at most two letters typed wrong, missing
/// or too many (one in a short word), capitals aside. Nothing when none is that near.
[[nodiscard]] std::optional<std::string> nearest(std::string_view word,
                                                 const std::vector<std::string>& known);

/// " (did you mean swing?)", or nothing when no known word is near.
[[nodiscard]] std::string did_you_mean(std::string_view word,
                                       const std::vector<std::string>& known);

/// The same letters, whether A or a.
[[nodiscard]] bool same_but_for_capitals(std::string_view a, std::string_view b);

/// Whether one text stands in another, capitals aside.
[[nodiscard]] bool has_but_for_capitals(std::string_view text, std::string_view part);

}  // namespace compline::text
