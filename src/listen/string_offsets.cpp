#include <compline/guitar/fretboard.hpp>
#include <compline/listen/string_offsets.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

namespace compline::listen {

namespace {

constexpr const char* an_example =
    "write a string from 1 to 8 and how many milliseconds later it comes, such as 6=3.2";
static_assert(guitar::most_strings == 8);

std::size_t string_of(const text::Phrase& phrase, const text::Word& word) {
    const auto string = text::read_count(word.name);
    const bool is_one = word.name.size() == 1 && string && *string >= 1 &&
                        *string <= guitar::most_strings && word.value;
    if (!is_one) {
        phrase.refuse(word, fmt::format("{} is no string's offset", text::quoted(word.text)),
                      an_example);
    }
    return static_cast<std::size_t>(*string);
}

}  // namespace

std::vector<time::Seconds> read_string_offsets(std::string_view words) {
    const text::Phrase phrase(words, text::Phrase::Parted::by_either);
    if (phrase.words().empty()) throw text::BadInput("", "no string is named", an_example);
    phrase.refuse_repeated();
    std::vector<time::Seconds> by_string;
    for (const auto& word : phrase.words()) {
        const auto string = string_of(phrase, word);
        if (by_string.size() < string) by_string.resize(string);
        by_string[string - 1] = time::from_milliseconds(phrase.number(
            word, -furthest_string_offset_ms, furthest_string_offset_ms, "milliseconds"));
    }
    while (!by_string.empty() && by_string.back() == time::Seconds(0)) by_string.pop_back();
    return by_string;
}

std::string string_offsets_in_words(const std::vector<time::Seconds>& by_string) {
    std::string words;
    for (std::size_t i = 0; i < by_string.size(); ++i) {
        const auto number = text::to_three_decimals(by_string[i].milliseconds());
        if (number == "0") continue;
        words += fmt::format("{}{}={}", words.empty() ? "" : " ", i + 1, number);
    }
    return words;
}

}  // namespace compline::listen
