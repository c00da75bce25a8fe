#include <compline/yaml/in_quotes.hpp>

namespace compline::yaml {

std::string in_quotes(std::string_view text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') quoted += '\\';
        if (c == '\n') {
            quoted += "\\n";
        } else {
            quoted += c;
        }
    }
    return quoted + "\"";
}

}  // namespace compline::yaml
