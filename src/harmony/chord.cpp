#include <compline/harmony/chord.hpp>
#include <compline/harmony/quality.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace compline::harmony {

namespace {

struct Sign {
    std::string_view written;
    std::string_view letter;
};
constexpr std::array<Sign, 4> signs = {{{"♭", "b"}, {"♯", "#"}, {"−", "-"}, {"Δ", "△"}}};

/// A symbol in letters, with the place of each of its bytes in the original.
struct Plain {
    std::string text;
    std::vector<std::size_t> origin;
};

Plain in_letters(std::string_view symbol, std::size_t from) {
    Plain plain;
    while (from < symbol.size()) {
        const auto rest = symbol.substr(from);
        const auto* const sign = std::find_if(signs.begin(), signs.end(), [&](const Sign& s) {
            return rest.substr(0, s.written.size()) == s.written;
        });
        const bool known = sign != signs.end();
        const std::string_view letter = known ? sign->letter : rest.substr(0, 1);
        plain.text += letter;
        plain.origin.insert(plain.origin.end(), letter.size(), from);
        from += known ? sign->written.size() : 1;
    }
    plain.origin.push_back(symbol.size());
    return plain;
}

template <typename Visit>
void each_spelling(Visit visit) {
    for (const auto& row : quality_table()) {
        visit(row, row.symbol);
        std::string_view rest = row.spellings;
        while (!rest.empty()) {
            const auto end = std::min(rest.find(' '), rest.size());
            visit(row, rest.substr(0, end));
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    }
}

std::optional<Quality> quality_named(std::string_view text) {
    std::optional<Quality> found;
    each_spelling([&](const QualityRow& row, std::string_view spelling) {
        if (!found && spelling == text) found = row.quality;
    });
    return found;
}

/// How far `text` agrees with the spelling that agrees with it longest.
std::size_t agreement(std::string_view text) {
    std::size_t longest = 0;
    each_spelling([&](const QualityRow&, std::string_view spelling) {
        const auto n = std::min(text.size(), spelling.size());
        const auto end =
            std::mismatch(text.begin(), text.begin() + static_cast<long>(n), spelling.begin());
        longest = std::max(longest, static_cast<std::size_t>(end.first - text.begin()));
    });
    return longest;
}

Spelling read_bass(std::string_view symbol, std::size_t at) {
    std::size_t length = 0;
    const auto bass = read_spelling(symbol.substr(at), length);
    if (!bass) {
        throw ChordError(at, fmt::format("\"{}\": after the slash stands a bass note, A to G, not "
                                         "\"{}\"",
                                         symbol, symbol.substr(at)));
    }
    if (at + length != symbol.size()) {
        throw ChordError(at + length, fmt::format("\"{}\": nothing may follow the bass note, but "
                                                  "\"{}\" does",
                                                  symbol, symbol.substr(at + length)));
    }
    return *bass;
}

}  // namespace

std::string Chord::symbol(Accidentals style) const {
    std::string text = root.name(style);
    for (const char c : row_of(quality).symbol) {
        if (style == Accidentals::symbols && c == 'b') {
            text += "♭";
        } else if (style == Accidentals::symbols && c == '#') {
            text += "♯";
        } else {
            text += c;
        }
    }
    if (bass) text += "/" + bass->name(style);
    return text;
}

Chord read_chord(std::string_view symbol) {
    std::size_t at = 0;
    const auto root = read_spelling(symbol, at);
    if (!root) {
        throw ChordError(0,
                         fmt::format("\"{}\" is not a chord: a chord starts with a letter A to G "
                                     "(N.C. where nobody plays)",
                                     symbol));
    }
    Chord chord{*root, Quality::major, std::nullopt};
    const Plain plain = in_letters(symbol, at);
    // The whole of it first, so that 6/9 is a quality and not a sixth over a bass.
    auto quality = quality_named(plain.text);
    if (const auto slash = plain.text.rfind('/'); !quality && slash != std::string::npos) {
        quality = quality_named(std::string_view(plain.text).substr(0, slash));
        if (quality) chord.bass = read_bass(symbol, plain.origin[slash] + 1);
    }
    if (!quality) {
        const auto place = agreement(plain.text);
        throw ChordError(
            plain.origin[place],
            fmt::format("\"{}\": no chord quality is written \"{}\" (known: maj7 6 6/9 "
                        "7 9 13 7b9 7#5 7sus4 m m6 m7 m9 m7b5 dim dim7 aug sus2 sus4)",
                        symbol, symbol.substr(at)));
    }
    chord.quality = *quality;
    return chord;
}

}  // namespace compline::harmony
