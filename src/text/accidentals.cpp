#include <compline/text/accidentals.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace compline::text {

namespace {

/// Unicode's names: MUSIC FLAT SIGN, SHARP, NATURAL, MUSICAL SYMBOL DOUBLE FLAT and DOUBLE SHARP.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> signs = {
    {{"♭", "b"}, {"♯", "#"}, {"♮", "n"}, {"𝄫", "bb"}, {"𝄪", "##"}}};

}  // namespace

std::string with_letters(std::string_view text) {
    std::string written;
    written.reserve(text.size());
    while (!text.empty()) {
        const auto sign = std::find_if(signs.begin(), signs.end(), [&](const auto& one) {
            return text.substr(0, one.first.size()) == one.first;
        });
        if (sign != signs.end()) {
            written += sign->second;
            text.remove_prefix(sign->first.size());
        } else {
            written += text.front();
            text.remove_prefix(1);
        }
    }
    return written;
}

}  // namespace compline::text
