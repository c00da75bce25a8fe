#pragma once

#include <compline/text/words.hpp>

#include <string>
#include <vector>

namespace compline::practice {

/// "string 3", "strings 1, 2 and 6".
[[nodiscard]] inline std::string strings_in_words(const std::vector<int>& strings) {
    std::vector<std::string> numbers;
    numbers.reserve(strings.size());
    for (const int string : strings) numbers.push_back(std::to_string(string));
    return (numbers.size() == 1 ? "string " : "strings ") + text::listed(numbers);
}

}  // namespace compline::practice
