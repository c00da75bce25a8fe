#include "voicing_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <utility>

namespace compline::app {

namespace {

constexpr int fewest_frets = 12;
constexpr int most_frets = 36;
constexpr int usual_frets = 22;
constexpr int highest_capo = 11;
constexpr int fewest_frets_left = 4;  ///< above the capo
constexpr int narrowest_position = 3;
constexpr int widest_position = 24;
constexpr int highest_note = 127;

/// How an option is named in a complaint: "--near 40", or "--voicings: near 40".
class Naming {
  public:
    explicit Naming(std::string before) : before_(std::move(before)) {}
    [[nodiscard]] std::string operator()(const char* option) const { return before_ + option; }

    [[noreturn]] void refuse(const char* option, const std::string& text,
                             const std::string& why) const {
        throw BadInput(fmt::format("{}{} {}: {}", before_, option, text, why));
    }

  private:
    std::string before_;
};

/// The value of a word, of those that an option takes.
template <typename Value, std::size_t n>
Value choose(const Naming& naming, const char* option, const std::string& text,
             const std::array<std::pair<const char*, Value>, n>& choices) {
    std::string words;
    for (std::size_t i = 0; i < n; ++i) {
        if (text == choices[i].first) return choices[i].second;
        words += i == 0 ? "" : i + 1 == n ? " or " : ", ";
        words += choices[i].first;
    }
    naming.refuse(option, text, "expected " + words);
}

constexpr std::array<std::pair<const char*, guitar::RightHand>, 2> right_hands = {
    {{"pick", guitar::RightHand::pick}, {"fingers", guitar::RightHand::fingers}}};
constexpr std::array<std::pair<const char*, guitar::LowRoot>, 3> roots = {
    {{"bottom", guitar::LowRoot::liked},
     {"anywhere", guitar::LowRoot::indifferent},
     {"above", guitar::LowRoot::disliked}}};

std::vector<int> read_strings(const Naming& naming, const std::string& text, int of_guitar) {
    std::vector<int> strings;
    if (text == "any") {
        for (int string = of_guitar; string >= 1; --string) strings.push_back(string);
        return strings;
    }
    for (const char c : text) {
        const int string = c - '0';
        if (c < '1' || c > '9') {
            naming.refuse("strings", text,
                          "write the strings' numbers, such as 5432, 1 being the highest; or any");
        }
        if (string > of_guitar) {
            naming.refuse("strings", text,
                          fmt::format("there is no string {}: the guitar has {}", c, of_guitar));
        }
        if (std::find(strings.begin(), strings.end(), string) != strings.end()) {
            naming.refuse("strings", text,
                          fmt::format("string {} is there twice: write each once", c));
        }
        strings.push_back(string);
    }
    if (strings.size() < 2) {
        naming.refuse("strings", text, "a voicing needs two strings and more, such as 5432");
    }
    return strings;
}

std::string style_list() { return "mixed, shells, guide-tones, one-colour, four-note or rootless"; }

guitar::VoicingStyle read_style(const Naming& naming, const std::string& text) {
    const auto style = guitar::find_voicing_style(text);
    if (!style) naming.refuse("style", text, fmt::format("expected {}", style_list()));
    return *style;
}

guitar::Fretboard read_fretboard(const Naming& naming, const VoicingOptions& options) {
    const int frets = options.frets.empty()
                          ? usual_frets
                          : read_count(naming("frets"), options.frets, fewest_frets, most_frets);
    const int capo =
        options.capo.empty() ? 0 : read_count(naming("capo"), options.capo, 0, highest_capo);
    if (frets - capo < fewest_frets_left) {
        naming.refuse("capo", options.capo,
                      fmt::format("that leaves {} of {} frets: {} at least are needed",
                                  frets - capo, frets, fewest_frets_left));
    }
    const auto standard = guitar::Fretboard::standard();
    std::vector<harmony::MidiNote> open;
    for (int string = 1; string <= standard.strings(); ++string) {
        open.push_back(standard.open(string));
    }
    if (!options.tuning.empty()) {
        const auto quoted = fmt::format("\"{}\"", options.tuning);
        try {
            open = guitar::read_tuning(options.tuning);
        } catch (const guitar::FretboardError& error) {
            naming.refuse("tuning", quoted, error.what());
        }
        const auto highest = std::max_element(open.begin(), open.end());
        if (highest->number() + frets > highest_note) {
            naming.refuse("tuning", quoted,
                          fmt::format("string {} is too high for {} frets",
                                      highest - open.begin() + 1, frets));
        }
    }
    return {open, frets, capo};
}

Voicings read(const Naming& naming, const VoicingOptions& options) {
    Voicings voicings;
    voicings.fretboard = read_fretboard(naming, options);
    auto& wishes = voicings.wishes;
    if (!options.style.empty()) wishes.style = read_style(naming, options.style);
    if (!options.strings.empty()) {
        wishes.strings = read_strings(naming, options.strings, voicings.fretboard.strings());
    }
    if (!options.right_hand.empty()) {
        wishes.right_hand = choose(naming, "right-hand", options.right_hand, right_hands);
    }
    if (!options.root.empty()) wishes.low_root = choose(naming, "root", options.root, roots);
    if (!options.near_fret.empty()) {
        wishes.near_fret =
            read_count(naming("near"), options.near_fret, 0, voicings.fretboard.frets());
    }
    if (!options.position.empty()) {
        wishes.position =
            read_count(naming("position"), options.position, narrowest_position, widest_position);
    }
    if (!options.strictness.empty()) {
        const auto strictness = harmony::read_strictness(options.strictness);
        if (!strictness) {
            naming.refuse("strictness", options.strictness,
                          "expected written, working or substitutions");
        }
        wishes.strictness = *strictness;
    }
    wishes.open_strings = options.open;
    wishes.thumb = options.thumb;
    wishes.long_chords_move = options.moving;
    return voicings;
}

// One text for all.

struct Word {
    const char* name;
    std::string VoicingOptions::*value;
};
constexpr std::array<Word, 10> words_with_value = {{{"style", &VoicingOptions::style},
                                                    {"strings", &VoicingOptions::strings},
                                                    {"right-hand", &VoicingOptions::right_hand},
                                                    {"root", &VoicingOptions::root},
                                                    {"near", &VoicingOptions::near_fret},
                                                    {"position", &VoicingOptions::position},
                                                    {"tuning", &VoicingOptions::tuning},
                                                    {"capo", &VoicingOptions::capo},
                                                    {"frets", &VoicingOptions::frets},
                                                    {"strictness", &VoicingOptions::strictness}}};

struct Flag {
    const char* name;
    bool VoicingOptions::*value;
};
constexpr std::array<Flag, 3> flags = {{{"open", &VoicingOptions::open},
                                        {"thumb", &VoicingOptions::thumb},
                                        {"moving", &VoicingOptions::moving}}};

[[noreturn]] void refuse_word(const std::string& option, const std::string& word) {
    std::string names;
    for (const auto& known : words_with_value) names += fmt::format("{}=..., ", known.name);
    throw BadInput(fmt::format("{}: \"{}\" is not known here: write {}, {}open, thumb, moving",
                               option, word, style_list(), names));
}

bool take_flag(const std::string& word, VoicingOptions& options) {
    for (const auto& flag : flags) {
        if (word != flag.name) continue;
        options.*flag.value = true;
        return true;
    }
    return false;
}

void take_value(const std::string& option, const std::string& name, std::string value,
                VoicingOptions& options) {
    const auto* const known = std::find_if(words_with_value.begin(), words_with_value.end(),
                                           [&](const Word& word) { return name == word.name; });
    if (known == words_with_value.end()) refuse_word(option, name + "=" + value);
    if (value.empty()) {
        throw BadInput(fmt::format("{}: there is nothing behind {}=", option, name));
    }
    auto& place = options.*known->value;
    if (!place.empty()) {
        throw BadInput(fmt::format("{}: {} is there twice: {} and {}", option, name, place, value));
    }
    if (known->value == &VoicingOptions::tuning) std::replace(value.begin(), value.end(), ',', ' ');
    place = std::move(value);
}

VoicingOptions split(const std::string& option, const std::string& words) {
    VoicingOptions options;
    std::istringstream in(words);
    for (std::string word; in >> word;) {
        const auto equals = word.find('=');
        if (equals != std::string::npos) {
            take_value(option, word.substr(0, equals), word.substr(equals + 1), options);
        } else if (guitar::find_voicing_style(word)) {
            take_value(option, "style", word, options);
        } else if (!take_flag(word, options)) {
            refuse_word(option, word);
        }
    }
    return options;
}

}  // namespace

Voicings read_voicings(const VoicingOptions& options) { return read(Naming("--"), options); }

Voicings read_voicings(const std::string& option, const std::string& words) {
    return read(Naming(option + ": "), split(option, words));
}

std::vector<Option> options_of(VoicingOptions& options) {
    return grouped(
        "Voicings",
        {{"--style", "STYLE",
          "mixed (what lies and sounds best, mostly three or four notes), four-note or\n"
          "rootless; or a step of the ladder, each with the guide tones at the same\n"
          "frets: shells (root, third, seventh), guide-tones (those two alone), then\n"
          "one-colour (and one tone more). Default: mixed",
          &options.style},
         {"--strings", "STRINGS",
          "The strings that may sound, by number, 1 being the highest, such as 4321;\n"
          "any. Default: 5432; for shells 6543, for guide tones 43",
          &options.strings},
         {"--right-hand", "HOW",
          "pick (which strikes all strings between its first and last) or fingers.\n"
          "Default: pick",
          &options.right_hand},
         {"--root", "WHERE",
          "Where the root is welcome: bottom, anywhere, or above (the bass has it).\n"
          "Default: anywhere",
          &options.root},
         {"--near", "FRET", "Stay near this fret. Default: the middle of the neck, frets 4 to 8",
          &options.near_fret},
         {"--position", "FRETS",
          "All fretted notes of the tune within so many frets, 3 to 24.\n"
          "Default: the whole neck",
          &options.position},
         {"--open", "", "Open strings may sound. Default: fretted notes only", &options.open},
         {"--thumb", "", "The thumb may fret the lowest string. Default: it does not",
          &options.thumb},
         {"--moving", "",
          "A chord of two bars and more goes through its inversions, a bar each, the\n"
          "top voice as a line. Default: it stays",
          &options.moving},
         {"--strictness", "LEVEL",
          "Which tones may be used: written (what the chart says), working (the usual\n"
          "tensions too) or substitutions (tritone substitutes too). Default: working",
          &options.strictness},
         {"--tuning", "NOTES",
          "The open strings from the lowest on: \"D2 A2 D3 G3 B3 E4\"; 4 to 8 of them.\n"
          "Default: E2 A2 D3 G3 B3 E4",
          &options.tuning},
         {"--capo", "FRET",
          "The fret it lies on, 0 to 11; frets are counted from it. Default: none", &options.capo},
         {"--frets", "N", "Frets of the neck, 12 to 36. Default: 22", &options.frets}});
}

}  // namespace compline::app
