#include "voicing_options.hpp"

#include "rules.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

namespace compline::app {

namespace {

constexpr int narrowest_position = 3;
constexpr int widest_position = 24;

std::vector<int> read_strings(const AsGiven& given, int of_guitar) {
    const auto& text = given.text;
    const auto refuse = [&](const std::string& why) {
        throw BadInput(fmt::format("{} {}", given.name, text::printable(text)), "", why);
    };
    std::vector<int> strings;
    if (text == "any") {
        for (int string = of_guitar; string >= 1; --string) strings.push_back(string);
        return strings;
    }
    for (const char c : text) {
        const int string = c - '0';
        if (c < '1' || c > '9') {
            refuse("write the strings' numbers, such as 5432, 1 being the highest; or any");
        }
        if (string > of_guitar) {
            refuse(fmt::format("there is no string {}: the guitar has {}", c, of_guitar));
        }
        if (std::find(strings.begin(), strings.end(), string) != strings.end()) {
            refuse(fmt::format("string {} is there twice: write each once", c));
        }
        strings.push_back(string);
    }
    if (strings.size() < 2) refuse("a voicing needs two strings and more, such as 5432");
    return strings;
}

}  // namespace

GuitarAndWishes read_voicings_on(guitar::Fretboard guitar, const VoicingOptions& options) {
    GuitarAndWishes voicings{std::move(guitar), options.wishes};
    auto& wishes = voicings.wishes;
    const auto& fretboard = voicings.fretboard;
    if (!options.strings.empty()) {
        wishes.strings = read_strings(options.strings, fretboard.strings());
    }
    if (!options.near_fret.empty()) {
        wishes.near_fret =
            read_whole_number(options.near_fret.name, options.near_fret.text, 0, fretboard.frets());
    }
    return voicings;
}

GuitarAndWishes read_voicings(const VoicingOptions& options) {
    return read_voicings_on(read_fretboard(options.guitar), options);
}

namespace {

// One text for all: the same options, without their dashes.

constexpr std::string_view two_dashes = "--";

std::string bare(const Option& option) { return option.name.substr(two_dashes.size()); }

bool takes_value(const Option& option) {
    return option.reader.takes != ValueReader::Takes::nothing;
}

/// Reads the words of --voicings by the options that `compline plan` has, the style first.
class Words {
  public:
    Words(const text::Phrase& phrase, const std::vector<Option>& options)
        : phrase_(phrase), options_(options) {}

    void take(const text::Word& word) {
        const auto& style = options_.front();
        if (!word.value && is_one_of(word.name, style.reader.words)) {
            read(word, style, std::string(word.text));
            return;
        }
        const auto& option = find(word);
        if (takes_value(option) && word.value.value_or("").empty()) {
            phrase_.refuse(word, fmt::format("there is nothing behind {}=", word.name),
                           fmt::format("write {}={}", word.name, option.value));
        }
        if (!takes_value(option) && word.value) {
            phrase_.refuse(word, fmt::format("{} takes no value", word.name), "write it alone");
        }
        read(word, option, std::string(word.value.value_or("")));
    }

  private:
    static bool is_one_of(std::string_view word, const std::vector<std::string>& words) {
        return std::find(words.begin(), words.end(), word) != words.end();
    }

    void read(const text::Word& word, const Option& option, std::string value) {
        const auto name = bare(option);
        if (!taken_.insert(name).second) {
            phrase_.refuse(word, fmt::format("{} is there twice", name), "write it once");
        }
        if (name == "tuning") std::replace(value.begin(), value.end(), ',', ' ');
        option.reader.read(name, value);
    }

    const Option& find(const text::Word& word) const {
        const auto found = std::find_if(options_.begin(), options_.end(), [&](const auto& option) {
            return bare(option) == word.name;
        });
        if (found == options_.end()) refuse(word);
        return *found;
    }

    [[noreturn]] void refuse(const text::Word& word) const {
        const auto& styles = options_.front().reader.words;
        auto known = styles;
        std::vector<std::string> written;
        for (const auto& option : options_) {
            known.push_back(bare(option));
            written.push_back(bare(option) + (takes_value(option) ? "=..." : ""));
        }
        phrase_.refuse_unknown(
            word, known,
            fmt::format("write {}, {}", text::listed(styles, "or"), fmt::join(written, ", ")));
    }

    const text::Phrase& phrase_;
    const std::vector<Option>& options_;
    std::set<std::string> taken_;
};

}  // namespace

namespace {

/// What words ask for beyond the usual.
VoicingOptions in_words(const std::string& words, const VoicingOptions& usual) {
    auto asked = usual;
    const auto options = options_of(asked);
    const text::Phrase phrase(words);
    Words reader(phrase, options);
    for (const auto& word : phrase.words()) reader.take(word);
    return asked;
}

}  // namespace

GuitarAndWishes read_voicings(const std::string& option, const std::string& words,
                              const VoicingOptions& usual) {
    return read_option(option, words, Echo::value, [&](const std::string& text) {
        return read_voicings(in_words(text, usual));
    });
}

GuitarAndWishes read_voicings_on(const guitar::Fretboard& fretboard, const std::string& option,
                                 const std::string& words, const VoicingOptions& usual,
                                 bool typed) {
    return read_option(option, words, Echo::value, [&](const std::string& text) {
        const auto asked = in_words(text, usual);
        const bool described = typed && asked.guitar.asked();
        if (described && read_fretboard(asked.guitar) != fretboard) {
            throw BadInput("that is another guitar than the take's: leave it out there");
        }
        return read_voicings_on(fretboard, asked);
    });
}

namespace {

ValueReader style_reader(guitar::VoicingStyle* style) {
    using enum guitar::VoicingStyle;
    return one_by_name({mixed, shells, guide_tones, one_colour, four_note, rootless}, style);
}

std::vector<Option> kinds_and_places(VoicingOptions& options) {
    using guitar::LowRoot;
    using guitar::RightHand;
    auto& wishes = options.wishes;
    return {
        {"--style", "STYLE",
         "mixed (what lies and sounds best, mostly three or four notes), four-note or\n"
         "rootless; or a step of the ladder, each with the guide tones at the same\n"
         "frets: shells (root, third, seventh), guide-tones (those two alone), then\n"
         "one-colour (and one tone more).",
         "mixed", style_reader(&wishes.style)},
        {"--strings", "STRINGS",
         "The strings that may sound, by number, 1 being the highest, such as 4321;\n"
         "any.",
         "5432; for shells 6543, for guide tones 43", as_given(&options.strings)},
        {"--right-hand", "HOW",
         "pick (which strikes all strings between its first and last) or fingers.\n", "pick",
         one_of<RightHand>({{"pick", RightHand::pick}, {"fingers", RightHand::fingers}},
                           &wishes.right_hand)},
        {"--root", "WHERE",
         "Where the root is welcome: bottom, anywhere, or above (the bass has it).\n", "anywhere",
         one_of<LowRoot>({{"bottom", LowRoot::liked},
                          {"anywhere", LowRoot::indifferent},
                          {"above", LowRoot::disliked}},
                         &wishes.low_root)},
        {"--near", "FRET", "Stay near this fret.", "the middle of the neck, frets 4 to 8",
         as_given(&options.near_fret)},
        {"--position", "FRETS", "All fretted notes of the tune within so many frets, 3 to 24.\n",
         "the whole neck", whole_number(narrowest_position, widest_position, &wishes.position)}};
}

std::vector<Option> freedoms(VoicingOptions& options) {
    auto& wishes = options.wishes;
    return {
        {"--open", "", "Open strings may sound.", "fretted notes only", flag(&wishes.open_strings)},
        {"--thumb", "", "The thumb may fret the lowest string.", "it does not",
         flag(&wishes.thumb)},
        {"--moving", "",
         "A chord of two bars and more goes through its inversions, a bar each, the\n"
         "top voice as a line.",
         "it stays", flag(&wishes.long_chords_move)},
        {"--strictness", "LEVEL",
         "Which tones may be used: written (what the chart says), working (the usual\n"
         "tensions too) or substitutions (tritone substitutes too).",
         "working", strictness_reader(&wishes.strictness)}};
}

}  // namespace

std::vector<Option> wishes_of(VoicingOptions& options) {
    auto rows = joined({kinds_and_places(options), freedoms(options)});
    for (auto& row : rows) {
        row = as_setting(std::move(row));
        if (row.name == "--right-hand") row = of_guitar(std::move(row));
    }
    return grouped("Voicings", std::move(rows));
}

std::vector<Option> options_of(VoicingOptions& options) {
    return grouped("Voicings", joined({wishes_of(options), options_of(options.guitar)}));
}

}  // namespace compline::app
