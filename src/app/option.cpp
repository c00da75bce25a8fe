#include "option.hpp"

#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace compline::app {

namespace {

/// POSIX's own bounds as Linux has them, in bytes.
constexpr std::size_t longest_path = 4095;
constexpr std::size_t longest_part = 255;

bool can_be_a_path(const std::string& text) {
    const std::filesystem::path path(text);
    return text.size() <= longest_path && std::all_of(path.begin(), path.end(), [](const auto& p) {
               return p.native().size() <= longest_part;
           });
}

/// "--near 40", a long value cut.
std::string place_of(std::string_view name, const std::string& text) {
    return fmt::format("{} {}", name, text::printable(text));
}

void refuse_endless_path(const std::string& name, const std::string& text) {
    if (can_be_a_path(text)) return;
    throw BadInput(place_of(name, text), "no file has so long a name", "check what was typed");
}

}  // namespace

namespace {

constexpr std::size_t dashes = 2;
constexpr std::string_view opposite = "--no-";

bool read_yes_or_no(const std::string& place, const std::string& text) {
    return read_word(place, text, {"yes", "no"}) == 0;
}

/// Takes it as if it were typed; a flag where the answer is this one.
std::function<void(const std::string&, const std::string&)> as_if_typed(const ValueReader& reader,
                                                                        bool answer) {
    if (reader.takes != ValueReader::Takes::nothing) return reader.read;
    return [read = reader.read, answer](const std::string& place, const std::string& text) {
        if (read_yes_or_no(place, text) == answer) read(place, "");
    };
}

}  // namespace

Option as_setting(Option option) {
    const auto reader = option.reader;
    return as_setting(std::move(option), reader);
}

Option as_setting(Option option, const ValueReader& takes) {
    option.setting = {option.name.substr(dashes), as_if_typed(takes, true)};
    return option;
}

Option as_opposite_setting(Option option) {
    option.setting = {option.name.substr(opposite.size()), as_if_typed(option.reader, false)};
    return option;
}

Option of_guitar(Option option) {
    option.setting->of_guitar = true;
    return option;
}

Option needed(Option option) {
    option.needed = true;
    return option;
}

std::vector<Option> grouped(const std::string& heading, std::vector<Option> options) {
    for (auto& option : options) option.group = heading;
    return options;
}

std::vector<Option> joined(std::initializer_list<std::vector<Option>> lists) {
    std::vector<Option> all;
    for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
    return all;
}

std::string in_help(const Option& option) {
    if (option.usual.empty()) return option.meaning;
    const bool has_line = !option.meaning.empty() && option.meaning.back() == '\n';
    return fmt::format("{}{}Default: {}", option.meaning, has_line ? "" : " ", option.usual);
}

double read_number(std::string_view name, const std::string& text, double least, double most) {
    const auto value = text::read_number(text);
    if (value && *value >= least && *value <= most) return *value;
    throw BadInput(place_of(name, text), "",
                   fmt::format("expected a number from {}", text::range_in_words(least, most)));
}

int read_whole_number(std::string_view name, const std::string& text, int least, int most) {
    const double value = read_number(name, text, least, most);
    if (value == std::floor(value)) return static_cast<int>(value);
    throw BadInput(
        place_of(name, text), "",
        fmt::format("expected a whole number from {}", text::range_in_words(least, most)));
}

ValueReader flag(bool* place) {
    return {ValueReader::Takes::nothing,
            [=](const std::string&, const std::string&) { *place = true; }};
}

ValueReader as_typed(std::string* place) {
    return {ValueReader::Takes::one,
            [=](const std::string&, const std::string& text) { *place = text; }};
}

ValueReader as_given(AsGiven* place) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                *place = {text, name};
            }};
}

ValueReader file_name(std::string* place) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                refuse_endless_path(name, text);
                *place = text;
            }};
}

ValueReader file_names(std::vector<std::string>* place) {
    return {ValueReader::Takes::several, [=](const std::string& name, const std::string& text) {
                refuse_endless_path(name, text);
                place->push_back(text);
            }};
}

ValueReader all_as_typed(std::vector<std::string>* place) {
    return {ValueReader::Takes::several,
            [=](const std::string&, const std::string& text) { place->push_back(text); }};
}

std::size_t read_word(std::string_view name, const std::string& text,
                      const std::vector<std::string>& words) {
    const auto found = std::find(words.begin(), words.end(), text);
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    throw BadInput(
        place_of(name, text), "",
        fmt::format("expected {}{}", text::listed(words, "or"), text::did_you_mean(text, words)));
}

ValueReader read_by(std::function<void(const std::string& text)> read, Echo echo) {
    return {ValueReader::Takes::one,
            [read = std::move(read), echo](const std::string& name, const std::string& text) {
                read_option(name, text, echo, read);
            }};
}

}  // namespace compline::app
