#include <compline/harmony/palette.hpp>
#include <compline/harmony/quality.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/tones.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <vector>

namespace compline::report {

namespace {

using harmony::Accidentals;
using harmony::Chord;
using harmony::Degree;

constexpr int label_columns = 28;
constexpr int widest_line = 80;

std::string tone(const Chord& chord, const Degree& degree) {
    return degree.name(Accidentals::symbols) + " " + harmony::spell(chord.root, degree).name();
}

std::string one_of(const Chord& chord, const harmony::Demand& demand) {
    std::string text = demand.size() > 1 ? "one of " : "";
    for (std::size_t i = 0; i < demand.size(); ++i) {
        text += (i == 0 ? "" : ", ") + tone(chord, demand[i]);
    }
    return text;
}

std::vector<std::string> words_of(const Chord& chord, const std::vector<Degree>& degrees) {
    std::vector<std::string> words;
    words.reserve(degrees.size());
    for (const auto& degree : degrees) words.push_back(tone(chord, degree));
    return words;
}

std::vector<std::string> words_of(const Chord& chord, const harmony::Grant& grant) {
    std::vector<std::string> words;
    for (const auto& option : grant.options) {
        auto text = tone(chord, option.degree);
        if (option.instead_of) text += " for the " + option.instead_of->name(Accidentals::symbols);
        const bool fourth =
            grant.ground == harmony::Ground::two_beats && option.degree.number == 11;
        words.push_back(text + (fourth ? " until the third sounds" : ""));
    }
    return words;
}

/// A label and what belongs to it, on as many lines as it takes.
std::string line(std::string_view label, const std::vector<std::string>& words) {
    if (words.empty()) return "";
    std::string text = fmt::format("  {:<{}}", label, label_columns - 2);
    int column = label_columns;
    bool first = true;
    for (const auto& word : words) {
        const int width = columns_of(word) + (first ? 0 : 3);
        if (!first && column + width > widest_line) {
            text += "\n" + std::string(label_columns, ' ');
            column = label_columns;
            first = true;
        }
        text += (first ? "" : "   ") + word;
        column += width;
        first = false;
    }
    return text + "\n";
}

std::vector<std::string> must_sound(const Chord& chord) {
    std::vector<std::string> words;
    for (const auto& demand : harmony::defining_tones(chord))
        words.push_back(one_of(chord, demand));
    const int enough = harmony::row_of(chord.quality).of_defining;
    if (enough == 3 && !words.empty()) words.front() = "any three of " + words.front();
    return words;
}

/// What `--strictness written` demands besides.
std::vector<std::string> must_sound_as_written(const Chord& chord) {
    const auto usual = harmony::defining_tones(chord);
    std::vector<std::string> words;
    for (const auto& demand : harmony::defining_tones(chord, true)) {
        const bool known = std::find(usual.begin(), usual.end(), demand) != usual.end();
        if (!known) words.push_back(one_of(chord, demand));
    }
    return words;
}

std::string label_of(harmony::Ground ground) {
    constexpr std::array<const char*, 6> labels = {
        "may sound too",           "falling a fifth, semitone",
        "as I7 or IV7 of a blues", "for two beats or more",
        "as minor tonic",          "substitutions"};
    return labels.at(static_cast<std::size_t>(ground));
}

}  // namespace

std::string tones_text(const Chord& chord) {
    std::string text = chord.symbol() + "\n";
    text += line("as written", words_of(chord, harmony::chord_tones(chord)));
    if (chord.bass) text += line("in the bass", {chord.bass->name()});
    text += line("must sound", must_sound(chord));
    text += line("  in strictness written", must_sound_as_written(chord));
    for (const auto& grant : harmony::grants(chord)) {
        text += line(label_of(grant.ground), words_of(chord, grant));
    }
    text += line("never", words_of(chord, harmony::contradicted_tones(chord)));
    return text;
}

}  // namespace compline::report
