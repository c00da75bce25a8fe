#pragma once

#include <compline/text/bad_input.hpp>

#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace compline::app {

// Options are data: what one is called, what it means, what holds where it is not given, and who
// reads it. Help is made from that, and so can be whatever else is to be said of them. What needs
// the chart to be understood (--bars, --click, --road-map) is kept as typed and read later.

using text::BadInput;

/// Takes what was typed and puts it where the command finds it.
struct ValueReader {
    enum class Takes { nothing, one, several };

    Takes takes = Takes::one;  ///< several: a value each time, or all words in its place
    /// `name`: the option, for complaints; `text`: one value as typed, of a letter or more (of a
    /// flag: none). Throws BadInput.
    std::function<void(const std::string& name, const std::string& text)> read;
    std::vector<std::string> words = {};  ///< all that may stand there, where they can be listed
};

/// That a value may stand in the settings file too, and who takes it where none was typed.
struct AsSetting {
    std::string key;  ///< in the file
    /// `place`: where it stands, for complaints. Throws BadInput.
    std::function<void(const std::string& place, const std::string& text)> read;
    bool of_guitar = false;  ///< each guitar may have its own
};

/// One option of a command.
struct Option {
    std::string name;     ///< "--tempo"; without dashes, "CHART", a word that stands in its place
    std::string value;    ///< what help calls the value, "BPM"; empty for a flag and for a word
    std::string meaning;  ///< for help; at its end \n where the default has a line of its own
    std::string usual;    ///< the default, as help says it; empty: none is said
    ValueReader reader;   ///< where it puts things must outlive the command
    std::string formerly = {};  ///< its name of old: whoever writes that is told the new one
    std::string group = {};     ///< its heading in help; empty: among the first ones
    bool needed = false;
    std::optional<AsSetting> setting = {};
};

/// The option is a setting too, by its own name, and takes a value from there as if it were typed;
/// a flag takes yes or no. `takes`: another reader takes it, since the value counts for less than
/// what a chart or take says.
[[nodiscard]] Option as_setting(Option option);
[[nodiscard]] Option as_setting(Option option, const ValueReader& takes);
/// The same of a flag "--no-...", whose setting is the other way round: `reminders: no`.
[[nodiscard]] Option as_opposite_setting(Option option);
/// Each guitar may have its own.
[[nodiscard]] Option of_guitar(Option option);

/// The option must be given.
[[nodiscard]] Option needed(Option option);

/// The options, each under this heading in help.
[[nodiscard]] std::vector<Option> grouped(const std::string& heading, std::vector<Option> options);

/// One list of several, in this order.
[[nodiscard]] std::vector<Option> joined(std::initializer_list<std::vector<Option>> lists);

/// Meaning and default, as help has them.
[[nodiscard]] std::string in_help(const Option& option);

/// Reads a number, such as 20, +20 or -2.5: finite, within the range given. Throws BadInput naming
/// the option.
[[nodiscard]] double read_number(std::string_view name, const std::string& text, double least,
                                 double most);
[[nodiscard]] int read_whole_number(std::string_view name, const std::string& text, int least,
                                    int most);

/// Whether a value was typed, by what complaints call it: "--tuning", and no place in a file.
[[nodiscard]] inline bool is_option_name(const std::string& name) {
    return name.rfind("--", 0) == 0;
}

/// A value that is kept as it was given, since more must be known to read it, and what complaints
/// call it: "--tuning", or the place of a setting.
struct AsGiven {
    std::string text;
    std::string name;
    [[nodiscard]] bool empty() const { return text.empty(); }
    bool operator==(const AsGiven&) const = default;
};

// The readers. A place is a value, or an optional one that stays empty where nothing is given.

[[nodiscard]] ValueReader flag(bool* place);
/// What the chart is needed for is read later.
[[nodiscard]] ValueReader as_typed(std::string* place);
[[nodiscard]] ValueReader as_given(AsGiven* place);
/// The name of a file. Throws BadInput where no file can be called so.
[[nodiscard]] ValueReader file_name(std::string* place);
[[nodiscard]] ValueReader file_names(std::vector<std::string>* place);
[[nodiscard]] ValueReader all_as_typed(std::vector<std::string>* place);

template <typename Place>
[[nodiscard]] ValueReader number(double least, double most, Place* place) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                *place = read_number(name, text, least, most);
            }};
}

template <typename Place>
[[nodiscard]] ValueReader whole_number(int least, int most, Place* place) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                *place = read_whole_number(name, text, least, most);
            }};
}

/// One of these words. Throws BadInput naming the others, and the one that was likely meant.
[[nodiscard]] std::size_t read_word(std::string_view name, const std::string& text,
                                    const std::vector<std::string>& words);

/// Of these values, one by its word.
template <typename Value>
using Choices = std::vector<std::pair<std::string, Value>>;

template <typename Value, typename Place>
[[nodiscard]] ValueReader one_of(const Choices<Value>& choices, Place* place) {
    std::vector<std::string> words;
    for (const auto& choice : choices) words.push_back(choice.first);
    return {ValueReader::Takes::one,
            [=](const std::string& name, const std::string& text) {
                *place = choices[read_word(name, text, words)].second;
            },
            words};
}

/// The same by the names that the values have.
template <typename Value, typename Place>
[[nodiscard]] ValueReader one_by_name(std::initializer_list<Value> values, Place* place) {
    Choices<Value> choices;
    for (const auto value : values) choices.emplace_back(name_of(value), value);
    return one_of(choices, place);
}

/// Whether a complaint repeats the whole value before what its reader says of a part of it.
enum class Echo { name, value };

/// Runs a reader of another layer; to what it refuses, the option is added.
template <typename Read>
auto read_option(const std::string& name, const std::string& text, Echo echo, Read read) {
    const auto place = echo == Echo::name ? name : text::option_place(name, text);
    return text::read_at(place, [&] { return read(text); });
}

/// By such a reader, which puts the value where it goes.
[[nodiscard]] ValueReader read_by(std::function<void(const std::string& text)> read,
                                  Echo echo = Echo::name);

}  // namespace compline::app
