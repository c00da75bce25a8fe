#include <compline/simulate/hand_voicings.hpp>
#include <compline/text/numbers.hpp>

#include <algorithm>
#include <string>
#include <utility>

namespace compline::simulate {

namespace {

using guitar::Shape;

// clang-format off
constexpr HandVoicing table[] = {
    // Triads and added tones.
    {"", "x-3-5-5-5-x"}, {"", "8-x-10-9-8-x"}, {"", "x-x-10-9-8-8"}, {"", "x-x-5-5-5-3"},
    {"m", "x-3-5-5-4-x"}, {"m", "8-x-10-8-8-x"}, {"m", "x-x-10-8-8-8"}, {"m", "x-x-5-5-4-3"},
    {"aug", "x-3-2-1-1-x"}, {"aug", "8-x-10-9-9-x"}, {"aug", "x-x-10-9-9-8"}, {"aug", "x-x-6-5-5-4"},
    {"sus4", "x-3-5-5-6-x"}, {"sus4", "8-x-10-10-8-x"}, {"sus4", "x-x-10-10-8-8"},
    {"sus2", "x-3-5-5-3-x"}, {"sus2", "x-x-10-7-8-8"},
    {"5", "8-10-10-x-x-x"}, {"5", "x-3-5-5-x-x"},
    {"add9", "x-x-10-9-8-10"}, {"add9", "x-3-2-x-3-3"},
    {"madd9", "x-x-10-8-8-10"},
    // Major.
    {"6", "x-3-2-2-1-x"}, {"6", "8-x-7-9-8-x"}, {"6", "x-3-5-2-5-x"}, {"6", "x-x-5-5-5-5"},
    {"6", "x-x-7-9-8-8"}, {"6", "8-x-7-9-x-x"},
    {"6/9", "x-3-2-2-3-x"}, {"6/9", "8-7-7-7-x-x"}, {"6/9", "x-x-2-2-3-3"}, {"6/9", "x-x-7-7-5-x"},
    {"maj7", "x-3-5-4-5-x"}, {"maj7", "8-x-9-9-8-x"}, {"maj7", "x-3-2-4-x-x"}, {"maj7", "8-x-9-9-x-x"},
    {"maj7", "x-x-10-12-12-12"}, {"maj7", "x-x-5-4-5-3"}, {"maj7", "x-x-9-9-8-8"}, {"maj7", "x-x-2-4-3-x"},
    {"maj9", "x-3-2-4-3-x"}, {"maj9", "x-x-2-4-3-3"}, {"maj9", "x-x-9-9-8-10"}, {"maj9", "8-7-9-7-x-x"},
    {"maj13", "8-x-9-9-10-x"}, {"maj13", "x-3-2-4-3-5"},
    {"maj7#11", "x-3-4-4-5-x"}, {"maj7#11", "8-x-9-9-7-x"},
    {"maj7#5", "8-x-9-9-9-x"}, {"maj7#5", "x-3-2-4-x-4"},
    // Minor.
    {"m6", "8-x-7-8-8-x"}, {"m6", "x-3-x-2-4-3"}, {"m6", "x-3-1-2-1-x"}, {"m6", "x-x-5-5-4-5"},
    {"m6", "8-x-7-8-x-x"}, {"m6", "x-x-1-2-1-3"},
    {"m6/9", "x-3-1-2-3-x"},
    {"m7", "x-3-5-3-4-x"}, {"m7", "8-x-8-8-8-x"}, {"m7", "x-3-x-3-4-x"}, {"m7", "8-x-8-8-x-x"},
    {"m7", "x-x-10-12-11-11"}, {"m7", "x-x-8-8-8-8"}, {"m7", "x-x-5-3-4-3"}, {"m7", "x-x-5-5-4-6"},
    {"m7", "x-3-1-3-x-x"},
    {"m9", "x-3-1-3-3-x"}, {"m9", "8-6-8-7-x-x"}, {"m9", "x-x-1-3-3-3"}, {"m9", "x-x-8-8-8-10"},
    {"m11", "8-x-8-8-6-x"}, {"m11", "x-3-3-3-4-x"}, {"m11", "x-x-8-8-6-x"}, {"m11", "x-3-1-3-x-1"},
    {"m13", "8-x-8-8-10-x"},
    {"m(maj7)", "x-3-5-4-4-x"}, {"m(maj7)", "8-x-9-8-8-x"}, {"m(maj7)", "x-x-9-8-8-8"},
    {"m(maj7)", "x-x-5-4-4-3"}, {"m(maj7)", "x-3-1-4-x-x"},
    {"m(maj9)", "x-3-1-4-3-x"},
    {"m7b5", "x-3-4-3-4-x"}, {"m7b5", "8-x-8-8-7-x"}, {"m7b5", "x-x-10-11-11-11"}, {"m7b5", "x-x-8-8-7-8"},
    {"m7b5", "x-x-4-5-4-6"}, {"m7b5", "x-3-x-3-4-2"},
    {"m9b5", "8-6-8-7-7-x"},
    {"dim7", "x-3-4-2-4-x"}, {"dim7", "8-x-7-8-7-x"}, {"dim7", "x-x-10-11-10-11"}, {"dim7", "x-x-4-5-4-5"},
    {"dim7", "x-x-7-8-7-8"}, {"dim7", "x-x-1-2-1-2"},
    {"dim(maj7)", "x-3-4-4-4-x"},
    // Dominants.
    {"7", "x-3-5-3-5-x"}, {"7", "8-x-8-9-8-x"}, {"7", "x-3-2-3-x-x"}, {"7", "8-x-8-9-x-x"},
    {"7", "x-3-2-3-1-x"}, {"7", "x-x-10-12-11-12"}, {"7", "x-x-8-9-8-8"}, {"7", "x-x-5-5-5-6"},
    {"7", "x-x-5-3-5-3"}, {"7", "x-3-2-3-3-x"}, {"7", "8-x-8-9-10-x"}, {"7", "x-x-8-9-10-x"},
    {"9", "x-3-2-3-3-x"}, {"9", "x-3-2-3-3-3"}, {"9", "x-x-2-3-3-3"}, {"9", "8-7-8-7-x-x"}, {"9", "x-x-8-9-8-10"},
    {"13", "8-x-8-9-10-x"}, {"13", "x-3-2-3-3-5"}, {"13", "x-x-8-9-10-10"}, {"13", "x-x-8-9-10-x"},
    {"7b9", "x-3-2-3-2-x"}, {"7b9", "x-x-2-3-2-3"}, {"7b9", "x-x-8-9-8-9"}, {"7b9", "8-7-8-6-x-x"},
    {"7b9", "x-x-5-6-5-6"},
    {"7#9", "x-3-2-3-4-x"}, {"7#9", "x-x-2-3-4-x"}, {"7#9", "x-x-2-3-4-3"}, {"7#9", "8-7-8-8-x-x"},
    {"7#5", "8-x-8-9-9-x"}, {"7#5", "x-3-2-3-x-4"}, {"7#5", "x-x-8-9-9-8"}, {"7#5", "x-x-6-5-5-6"},
    {"7b13", "8-x-8-9-9-x"}, {"7b13", "x-3-2-3-x-4"}, {"7b13", "x-x-8-9-9-8"},
    {"7b9b13", "x-3-2-3-2-4"}, {"7b9b13", "x-x-2-3-2-4"}, {"7b9b13", "x-x-8-9-9-9"},
    {"7#5#9", "x-3-2-3-4-4"}, {"7#5#9", "x-x-2-3-4-4"},
    {"13b9", "x-x-8-9-10-9"}, {"13b9", "x-3-2-3-2-5"},
    {"7alt", "x-3-2-3-4-4"}, {"7alt", "x-x-2-3-4-4"}, {"7alt", "x-x-2-3-2-4"}, {"7alt", "x-x-8-9-9-9"},
    {"7alt", "x-x-8-9-7-9"}, {"7alt", "x-3-2-3-4-x"},
    {"7b5", "8-x-8-9-7-x"}, {"7b5", "x-3-4-3-5-x"}, {"7b5", "x-x-8-9-7-8"}, {"7b5", "x-x-10-11-11-12"},
    {"7#11", "8-x-8-9-7-x"}, {"7#11", "x-3-4-3-5-x"}, {"7#11", "x-x-8-9-7-8"}, {"7#11", "x-3-2-3-x-2"},
    {"9#11", "x-x-2-3-3-2"}, {"9#11", "x-3-2-3-3-2"},
    {"7sus4", "x-3-5-3-6-x"}, {"7sus4", "8-x-8-10-8-x"}, {"7sus4", "x-3-3-3-x-x"}, {"7sus4", "x-x-8-10-8-8"},
    {"9sus4", "x-3-3-3-3-x"}, {"9sus4", "x-x-3-3-3-3"}, {"9sus4", "8-8-8-7-x-x"}, {"9sus4", "x-x-8-10-8-10"},
    {"13sus4", "8-x-8-10-10-x"}, {"13sus4", "x-3-3-3-3-5"},
};

/// What a player takes for a symbol that has no grips of its own here.
constexpr std::pair<std::string_view, std::string_view> taken_for[] = {
    {"dim", "dim7"},        {"maj11", "maj9"},     {"maj7b5", "maj7#11"},  {"maj9#11", "maj7#11"},
    {"maj13#11", "maj7#11"}, {"11", "9sus4"},      {"13#11", "9#11"},      {"7b9#11", "7alt"},
    {"7#9#11", "7alt"},     {"7b9#9", "7alt"},     {"7#9b13", "7#5#9"},    {"7#5b9", "7b9b13"},
    {"7b5b9", "7alt"},      {"7b5#9", "7alt"},     {"m11b5", "m7b5"},      {"m(maj11)", "m(maj9)"},
    {"9#5", "7#5"},         {"9b5", "7b5"},        {"m(maj13)", "m(maj9)"}, {"7sus2", "9sus4"},
};
// clang-format on

constexpr int lowest = 1;
constexpr int highest = 14;

/// The frets of a row, from string 6 to string 1.
std::vector<std::optional<int>> frets_of(std::string_view text) {
    std::vector<std::optional<int>> frets;
    while (true) {
        const auto word = text.substr(0, text.find('-'));
        frets.push_back(word == "x" ? std::nullopt : text::read_count(word));
        if (word.size() == text.size()) return frets;
        text.remove_prefix(word.size() + 1);
    }
}

std::string quality_of(harmony::Chord chord) {
    chord.root = {harmony::Letter::C, 0};
    chord.bass.reset();
    return chord.symbol(harmony::Accidentals::letters).substr(1);
}

bool has_rows(std::string_view quality) {
    return std::any_of(std::begin(table), std::end(table),
                       [&](const HandVoicing& row) { return row.quality == quality; });
}

std::string known_quality(const harmony::Chord& chord) {
    auto quality = quality_of(chord);
    if (has_rows(quality)) return quality;
    for (const auto& [symbol, instead] : taken_for) {
        if (quality == symbol) return std::string(instead);
    }
    auto plain = chord;
    plain.alterations = {};
    return quality_of(plain);
}

std::optional<Shape> moved(std::vector<std::optional<int>> frets, int by) {
    for (auto& fret : frets) {
        if (!fret) continue;
        *fret += by;
        if (*fret < lowest || *fret > highest) return std::nullopt;
    }
    return Shape::of(frets);
}

template <typename Visit>
void each_row(const harmony::Chord& chord, Visit visit) {
    const auto quality = known_quality(chord);
    for (const auto& row : table) {
        if (row.quality == quality) visit(frets_of(row.frets));
    }
}

}  // namespace

std::span<const HandVoicing> hand_voicings() { return table; }

std::vector<Shape> known_grips(const harmony::Chord& chord) {
    std::vector<Shape> grips;
    const int up = chord.root.pitch_class();
    each_row(chord, [&](const auto& frets) {
        for (const int by : {up - 12, up}) {
            if (const auto shape = moved(frets, by)) grips.push_back(*shape);
        }
    });
    return grips;
}

Intervals sounds_of(const harmony::Chord& chord) {
    Intervals sounds;
    const auto board = guitar::Fretboard::standard();
    each_row(chord, [&](const auto& frets) {
        for (const auto& place : Shape::of(frets).places()) {
            sounds.set(static_cast<std::size_t>(board.note(place).pitch_class()));
        }
    });
    return sounds;
}

}  // namespace compline::simulate
