#include <compline/text/for_shell.hpp>

#include <algorithm>
#include <cctype>

namespace compline::text {

std::string for_shell(std::string_view word) {
    const auto safe = [](unsigned char c) {
        return std::isalnum(c) != 0 || c == '/' || c == '.' || c == '-' || c == '_' || c == ':' ||
               c == ',' || c == '+' || c == '=' || c >= 0x80;
    };
    const bool bare =
        !word.empty() && word.front() != '-' && std::all_of(word.begin(), word.end(), safe);
    if (bare) return std::string(word);
    std::string text = "'";
    for (const char c : word) text += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return text + "'";
}

}  // namespace compline::text
