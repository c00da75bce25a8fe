#include "measure.d/charts.hpp"

#include <fmt/format.h>

#include <array>
#include <iterator>
#include <string>
#include <string_view>

namespace compline::measure {

namespace {

using simulate::Chance;

// In C, or in A minor.
constexpr std::string_view phrases[] = {
    "Cmaj7 | Am7 | Dm7 | G7",
    "Dm7 | G7 | Cmaj7 | C6",
    "C6 | A7b9 | Dm9 | G13",
    "Em7 A7 | Dm7 G7 | Cmaj9 | %",
    "Gm7 | C7 | Fmaj7 | Bb9",
    "Fmaj7 | Fm6 | Em7 | A7alt",
    "Am7 | D9 | Dm7 | G7sus4 G7",
    "Bm7b5 | E7b9 | Am6 | %",
    "Am(maj7) | Am7 | Am6 | E7#5",
    "Dm7b5 | G7#9 | Cm7 | Cm6",
    "C7 | F7 | C7 | Gm7 C7",
    "F7 | F#dim7 | C7 | Em7b5 A7b9",
    "Ebmaj7 | Abmaj7 | Dm7b5 | G7b9",
    "Em7 | Ebm7 | Dm7 | Db7#11",
    "Cmaj7 | C#dim7 | Dm7 | D#dim7",
    "Cmaj7 | Fmaj7 | Bm7b5 E7 | Am7",
    "Am9 | Fmaj9 | Dm11 | E7alt",
    "C6/9 | Eb7b5 | Abmaj7 | G7#5",
    "F#m7b5 | B7b9 | Em7 | A13",
    "E7 | A7 | D7 | G7",
    "C7sus4 | C7 | Fmaj7 | Fm6",
    "Caug | F6 | Fm | Cmaj7",
    "Csus4 | C | Am | Dm7 G7",
    "Cmaj7 | N.C. | Dm7 | G7",
    "Dm11 | G13 | N.C. | C6/9",
    "Cm7 | Cm7/Bb | Am7b5 | D7b9",
    "C/E | Ebdim7 | Dm7/G | G7",
    "Dm7 G7 | Cmaj7 Am7 | Dm7 G7 | Em7 A7",
    "Am7 / / D7 | Gmaj7 | Gm7 / / C7 | Fmaj7",
    "Em7b5 | A7#5 | Dm9 | Db9",
    "Fm9 | Bb13 | Ebmaj9 | Ab6",
    "C7#9 | % | F9 | C7#9",
};
constexpr std::string_view waltzes[] = {
    "Cmaj7 | Am7 | Dm7 | G7",    "Fmaj7 | Em7 | Dm7 | Cmaj7", "Am9 | D9 | Gmaj7 | C6",
    "Bm7b5 | E7b9 | Am6 | A7",   "Dm7 | Db7#11 | C6/9 | %",   "Fm6 | Bb7 | Em7 | A7alt",
    "C7 | F7 | F#dim7 | G7sus4",
};
constexpr std::array<std::string_view, 12> keys = {"C",  "Db", "D",  "Eb", "E",  "F",
                                                   "Gb", "G",  "Ab", "A",  "Bb", "B"};

bool is_letter(char c) { return c >= 'A' && c <= 'G'; }

/// A phrase so many semitones higher. "N.C." is no note: it does not begin with A to G.
std::string higher(std::string_view phrase, int by) {
    std::string moved;
    for (std::size_t i = 0; i < phrase.size();) {
        const bool starts = i == 0 || phrase[i - 1] == ' ' || phrase[i - 1] == '/';
        if (!starts || !is_letter(phrase[i])) {
            moved += phrase[i++];
            continue;
        }
        std::size_t length = 0;
        const auto note = harmony::read_spelling(phrase.substr(i), length);
        moved += keys.at(static_cast<std::size_t>((note->pitch_class() + by) % 12));
        i += length;
    }
    return moved;
}

std::string section(bool waltz, int key, Chance& chance) {
    std::string bars;
    for (int line = 0; line < 2; ++line) {
        const auto phrase = waltz ? waltzes[chance.below(std::size(waltzes))]
                                  : phrases[chance.below(std::size(phrases))];
        bars += "    " + higher(phrase, key) + "\n";
    }
    return bars;
}

}  // namespace

chart::Form any_chart(Chance& chance) {
    const bool waltz = chance.below(6) == 0;
    const bool bossa = !waltz && chance.below(6) == 0;
    const int key = static_cast<int>(chance.below(12));
    // One after the other: the order of arguments is the compiler's.
    const auto a = section(waltz, key, chance);
    const auto b = section(waltz, key, chance);
    const auto c = section(waltz, (key + 5) % 12, chance);
    const auto text = fmt::format(
        "title: By Chance in {0}\nkey: {0}\nmeter: {1}\ntempo: 120\nfeel: {2}\nform: [A, B, A, "
        "C]\nsections:\n"
        "  A: |\n{3}  B: |\n{4}  C: |\n{5}",
        keys.at(static_cast<std::size_t>(key)), waltz ? "3/4" : "4/4", bossa ? "bossa" : "swing", a,
        b, c);
    return chart::unroll(chart::read_chart(text, "by-chance.yaml"));
}

}  // namespace compline::measure
