#include <compline/listen/pickup_words.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

namespace compline::listen {

namespace {

constexpr int highest_first_channel = 11;
constexpr double most_bend = 96;
constexpr double most_cycles = 20;
constexpr double longest_ms = 200;

constexpr const char* known_words =
    "mono, poly, from=1 (the first string's channel), low-first, high-first, bend=2 (semitones), "
    "cycles=1.5, ghosts=45, double-triggers=60, flickers=60 and lift-offs=30 (milliseconds, or "
    "off), ghost-loudness=0.35, lift-off-loudness=0.5";

// The words that set a number, and which.

struct Length {
    const char* name;
    time::Seconds Cleaning::*value;
};
constexpr std::array<Length, 4> lengths = {{{"ghosts", &Cleaning::ghost},
                                            {"double-triggers", &Cleaning::double_trigger},
                                            {"flickers", &Cleaning::flicker},
                                            {"lift-offs", &Cleaning::lift_off}}};
struct Loudness {
    const char* name;
    double Cleaning::*value;
};
constexpr std::array<Loudness, 2> loudnesses = {
    {{"ghost-loudness", &Cleaning::ghost_loudness},
     {"lift-off-loudness", &Cleaning::lift_off_loudness}}};

using text::Phrase;
using text::Word;

bool take_cleaning(const Phrase& phrase, const Word& word, Cleaning& cleaning) {
    for (const auto& length : lengths) {
        if (word.name != length.name) continue;
        cleaning.*length.value = word.value == "off"
                                     ? time::Seconds(0)
                                     : time::from_milliseconds(phrase.number(
                                           word, 1, longest_ms, "off, or milliseconds"));
        return true;
    }
    for (const auto& loudness : loudnesses) {
        if (word.name != loudness.name) continue;
        cleaning.*loudness.value = phrase.number(word, 0, 1, "a part");
        return true;
    }
    return false;
}

std::vector<std::string> known_names() {
    std::vector<std::string> names{"mono",       "poly", "from",  "low-first",
                                   "high-first", "bend", "cycles"};
    for (const auto& length : lengths) names.emplace_back(length.name);
    for (const auto& loudness : loudnesses) names.emplace_back(loudness.name);
    return names;
}

/// Which channel is which string, as far as it was said.
struct Layout {
    bool mono = false;
    bool poly = false;
    std::optional<int> first_channel;
    std::optional<bool> low_string_first;
};

bool take_layout(const Phrase& phrase, const Word& word, Layout& layout) {
    const bool plain = !word.value;
    if (word.name == "from") {
        const double channel = phrase.number(word, 1, highest_first_channel, "a channel");
        layout.first_channel = static_cast<int>(channel);
        if (*layout.first_channel != channel) {
            phrase.refuse(word, fmt::format("{} for from", text::quoted(*word.value)),
                          "write a whole number");
        }
    } else if (plain && word.name == "mono") {
        layout.mono = true;
    } else if (plain && word.name == "poly") {
        layout.poly = true;
    } else if (plain && (word.name == "low-first" || word.name == "high-first")) {
        layout.low_string_first = word.name == "low-first";
    } else {
        return false;
    }
    return true;
}

void settle(const Layout& layout, PickupSettings& settings) {
    const bool by_string = layout.mono || layout.first_channel || layout.low_string_first;
    if (by_string && layout.poly) {
        throw text::BadInput("", "poly is one channel for all strings",
                             "leave out mono, from and low-first, or poly");
    }
    if (layout.poly) {
        settings.one_channel = true;
        settings.strings.reset();
    }
    if (!by_string) return;
    settings.one_channel = false;
    settings.strings =
        Strings{layout.first_channel.value_or(1), layout.low_string_first.value_or(false)};
}

void take(const Phrase& phrase, const Word& word, Layout& layout, PickupSettings& settings) {
    if (take_layout(phrase, word, layout) || take_cleaning(phrase, word, settings.cleaning)) return;
    if (word.name == "bend") {
        settings.bend_range = phrase.number(word, 0, most_bend, "semitones");
    } else if (word.name == "cycles") {
        settings.delay.cycles = phrase.number(word, 0, most_cycles, "cycles of the wave");
    } else {
        phrase.refuse_unknown(word, known_names(), fmt::format("write {}", known_words));
    }
}

}  // namespace

void read_pickup(std::string_view words, PickupSettings& settings) {
    const Phrase phrase(words);
    phrase.refuse_repeated();
    PickupSettings read = settings;
    Layout layout;
    for (const auto& word : phrase.words()) take(phrase, word, layout, read);
    settle(layout, read);
    settings = read;
}

std::string with_pickup_word(std::string_view words, std::string_view name,
                             std::string_view value) {
    const Phrase phrase(words);
    std::string text;
    for (const auto& word : phrase.words()) {
        if (word.name != name) text += fmt::format("{} ", word.text);
    }
    return fmt::format("{}{}={}", text, name, value);
}

Delay live_delay(time::Seconds constant, std::vector<time::Seconds> by_string,
                 std::string_view words) {
    PickupSettings ears;
    ears.delay = {constant, usual_cycles, std::move(by_string)};
    read_pickup(words, ears);
    return ears.delay;
}

std::string in_words(const std::optional<Strings>& strings) {
    if (!strings) return "one channel for all strings";
    return fmt::format("a channel for each string, string {} on channel {}",
                       strings->low_string_first ? 6 : 1, strings->first_channel);
}

}  // namespace compline::listen
