#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::text {

namespace {

std::string_view without_blanks(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

std::string_view separators(Phrase::Parted parted) {
    switch (parted) {
        case Phrase::Parted::by_blanks:
            return " \n\r";
        case Phrase::Parted::by_commas:
            return ",";
        case Phrase::Parted::by_either:
            return ", \n\r";
    }
    return " ";
}

}  // namespace

Word word_at(std::string_view text, std::size_t from, std::size_t end) {
    Word word;
    word.text = text.substr(from, end - from);
    word.offset = from;
    const auto equals = word.text.find('=');
    word.name = word.text.substr(0, equals);
    if (equals != std::string_view::npos) word.value = word.text.substr(equals + 1);
    return word;
}

Phrase::Phrase(std::string_view text, Parted parted) : Phrase(text, parted, 0, text.size()) {}

Phrase::Phrase(std::string_view text, Parted parted, std::size_t from, std::size_t to)
    : text_(text), loose_(parted == Parted::by_commas) {
    const auto between = separators(parted);
    while (from <= to) {
        const auto end = std::min(text.find_first_of(between, from), to);
        // Between commas an empty word is a word that was forgotten.
        if (loose_ || end > from) add(from, end);
        from = end + 1;
    }
}

void Phrase::add(std::size_t from, std::size_t end) {
    if (loose_) {
        while (from < end && text_[from] == ' ') ++from;
        while (from < end && text_[end - 1] == ' ') --end;
    }
    Word word = word_at(text_, from, end);
    if (loose_) {
        word.name = without_blanks(word.name);
        if (word.value) word.value = without_blanks(*word.value);
    }
    words_.push_back(word);
}

void Phrase::refuse(std::string_view part, const std::string& found,
                    const std::string& expected) const {
    const auto offset = static_cast<std::size_t>(part.data() - text_.data());
    if (part.size() == without_blanks(text_).size()) throw BadInput("", found, expected, offset);
    throw bad_character(text_, offset, found, expected);
}

void Phrase::refuse(const Word& word, const std::string& found, const std::string& expected) const {
    refuse(text_.substr(word.offset, word.text.size()), found, expected);
}

void Phrase::refuse_unknown(const Word& word, const std::vector<std::string>& known,
                            const std::string& expected) const {
    refuse(word,
           fmt::format("{} is not known here{}", quoted(word.text), did_you_mean(word.name, known)),
           expected);
}

void Phrase::refuse_repeated() const {
    for (std::size_t i = 1; i < words_.size(); ++i) {
        const auto same = [&](const Word& other) { return other.name == words_[i].name; };
        if (std::none_of(words_.begin(), words_.begin() + static_cast<std::ptrdiff_t>(i), same)) {
            continue;
        }
        refuse(words_[i], fmt::format("{} is there twice", printable(words_[i].name)),
               "write it once");
    }
}

double Phrase::number(const Word& word, double least, double most, std::string_view unit) const {
    const auto value = word.value.value_or("");
    const auto number = read_number(value);
    if (number && *number >= least && *number <= most) return *number;
    refuse(word, fmt::format("{} for {}", quoted(value), printable(word.name)),
           fmt::format("write {} from {}", unit, range_in_words(least, most)));
}

}  // namespace compline::text
