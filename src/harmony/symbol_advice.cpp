#include "symbol_advice.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace compline::harmony {

namespace {

struct SpellingAdvice {
    std::string_view found;
    std::string_view words;
};

// clang-format off
constexpr std::array advices = {
    SpellingAdvice{"dom", "a dominant is written by its number alone, such as C7 or C9"},
    SpellingAdvice{"flat", "a flat is written b or ♭"},
    SpellingAdvice{"sharp", "a sharp is written # or ♯"},
    SpellingAdvice{"dim5", "a flat fifth is written b5"},
    SpellingAdvice{"triad", "a triad is written by its root alone, such as C or Cm"},
    SpellingAdvice{"hdim", "a half-diminished chord is written m7b5 or ø"},
    SpellingAdvice{"h", "a half-diminished chord is written m7b5 or ø"},
    SpellingAdvice{"^", "a major seventh is written maj7 or △"},
    SpellingAdvice{"j", "a major seventh is written maj7 or △"},
    SpellingAdvice{"add7", "a 7 is not added but written behind the root: C7 or Cmaj7"},
    SpellingAdvice{"add3", "the third is in it anyway, unless it is a 5 or a sus"},
    SpellingAdvice{"4", "a bare 4 is written sus4, or add11 where the third stays"},
    SpellingAdvice{"2", "a bare 2 is written add9, or sus2 where the third goes"},
    SpellingAdvice{" ", "a chord has no blank but in parentheses"},
    SpellingAdvice{")", "its ) closes no parenthesis"},
    SpellingAdvice{"]", "its ] closes nothing"},
};
constexpr std::array no_chord = {"n.c.", "n.c", "nc.", "nc", "n", "tacet"};
// Shorthands of annotations whose letters a lead sheet does not have.
constexpr std::array shorthands = {SpellingAdvice{"sus4(b7,9)", "9sus4"}, SpellingAdvice{"sus4(b7)", "7sus4"},
    SpellingAdvice{"hdim7", "m7b5"}, SpellingAdvice{"hdim9", "m9b5"}, SpellingAdvice{"hdim", "m7b5"},
    SpellingAdvice{"minmaj7", "m(maj7)"}, SpellingAdvice{"minmaj9", "m(maj9)"}, SpellingAdvice{"1", "5"}};
// clang-format on

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// "b3", "#11", "5"; nothing of anything else.
std::optional<Degree> read_degree_name(std::string_view text) {
    Degree degree{0, 0};
    while (!text.empty() && (text.front() == 'b' || text.front() == '#')) {
        degree.alteration += text.front() == 'b' ? -1 : 1;
        text.remove_prefix(1);
    }
    if (text.empty() || text.size() > 2) return std::nullopt;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        degree.number = degree.number * 10 + (c - '0');
    }
    // Behind one accidental more no name is left for the note.
    const bool near = degree.alteration >= -1 && degree.alteration <= 1;
    return near && degree.number >= 1 && degree.number <= 13 ? std::optional(degree) : std::nullopt;
}

/// As letters; empty where it is no chord.
std::string symbol_if_read(const std::string& text) {
    try {
        return read_chord(text).symbol(Accidentals::letters);
    } catch (const text::BadInput&) {
        return "";
    }
}

std::string over(const std::string& chord, const Spelling& root, const Degree& bass) {
    return chord + "/" + spell(root, bass).name(Accidentals::letters);
}

std::string quality_of_annotation(std::string text) {
    for (const auto& [shorthand, ours] : shorthands) {
        if (text.rfind(shorthand, 0) != 0) continue;
        text.replace(0, shorthand.size(), ours);
        break;
    }
    // A tone left out has a star.
    for (auto at = text.find('*'); at != std::string::npos; at = text.find('*', at)) {
        text.replace(at, 1, "no");
    }
    return text;
}

}  // namespace

bool begins_with_word(std::string_view text, std::string_view word) {
    return text.size() >= word.size() &&
           std::equal(word.begin(), word.end(), text.begin(),
                      [](char ours, char theirs) { return ours == small(theirs); });
}

std::string_view advice_for(std::string_view rest) {
    for (const auto& [found, words] : advices) {
        if (begins_with_word(rest, found)) return words;
    }
    return "";
}

std::string_view advice_for_root(std::string_view symbol) {
    for (const std::string_view name : no_chord) {
        if (symbol.size() == name.size() && begins_with_word(symbol, name)) {
            return "where nobody plays write N.C.";
        }
    }
    const char first = symbol.empty() ? ' ' : symbol.front();
    if (first == 'H' || first == 'h')
        return "a chord starts with a letter A to G: the German H is B";
    if (first >= 'a' && first <= 'g') return "a chord starts with a capital letter, A to G";
    return "a chord starts with a letter A to G (N.C. where nobody plays)";
}

std::string advice_for_bass(const Chord& above, std::string_view symbol, std::size_t slash) {
    const std::string written(symbol.substr(0, slash));
    const auto name = symbol.substr(slash + 1);
    if (const auto degree = read_degree_name(name)) {
        const auto bass = "a bass is a note, A to G: write " + over(written, above.root, *degree);
        const bool suspends = name == "4" && !is_minor(above);
        const auto chord =
            symbol_if_read(suspends ? written + "sus4" : fmt::format("{}({})", written, name));
        return chord.empty() ? bass : fmt::format("{}, or {} for the tone", bass, chord);
    }
    const char first = name.empty() ? ' ' : name.front();
    return first >= 'a' && first <= 'g' ? "a bass note is a capital letter, A to G" : "";
}

std::string advice_for_annotation(std::string_view symbol) {
    std::size_t length = 0;
    const auto root = read_spelling(symbol, length);
    if (!root || symbol.size() < length + 2 || symbol[length] != ':') return "";
    const auto quality = symbol.substr(length + 1);
    const auto slash = std::min(quality.find('/'), quality.size());
    auto ours = root->name(Accidentals::letters) +
                quality_of_annotation(std::string(quality.substr(0, slash)));
    if (slash < quality.size()) {
        const auto bass = quality.substr(slash + 1);
        const auto degree = read_degree_name(bass);
        ours = degree ? over(ours, *root, *degree) : fmt::format("{}/{}", ours, bass);
    }
    const auto chord = symbol_if_read(ours);
    if (chord.empty()) return "a lead sheet has no colon in its chords, Am7 and not A:min7";
    return fmt::format("a lead sheet has no colon in its chords: {} is written {}", symbol, chord);
}

}  // namespace compline::harmony
