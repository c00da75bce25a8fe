#include "quotes.hpp"

namespace compline::yaml {

std::size_t end_of_quotes(std::string_view text, std::size_t start) {
    const char quote = text[start];
    for (std::size_t i = start + 1; i < text.size(); ++i) {
        if (quote == '"' && text[i] == '\\') {
            ++i;
        } else if (text[i] == quote) {
            const bool doubled = quote == '\'' && i + 1 < text.size() && text[i + 1] == quote;
            if (!doubled) return i;
            ++i;
        }
    }
    return std::string_view::npos;
}

}  // namespace compline::yaml
