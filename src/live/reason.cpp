#include "reason.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace compline::live {

namespace {

/// Library messages carry line ends and blanks at either end.
std::string trimmed(const std::string& text) {
    const auto blank = [](unsigned char c) { return std::isspace(c) != 0; };
    const auto first = std::find_if_not(text.begin(), text.end(), blank);
    const auto last = std::find_if_not(text.rbegin(), text.rend(), blank).base();
    return first < last ? std::string(first, last) : std::string();
}

}  // namespace

std::string reason(const std::string& ours, const std::string& library_said) {
    const std::string theirs = trimmed(library_said);
    return theirs.empty() ? ours : fmt::format("{} ({})", ours, theirs);
}

}  // namespace compline::live
