#include "polychord.hpp"
#include "symbol_advice.hpp"
#include "symbol_cursor.hpp"
#include "symbol_parts.hpp"

#include <compline/harmony/chord.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace compline::harmony {

namespace {

using A = Alteration;

constexpr std::string_view after_root =
    "m, maj7, dim, °, ø, aug, +, sus4, 5, 6, 6/9, 7, 9, 11, 13, add9, an alteration in "
    "parentheses, or / and a bass note";
constexpr std::string_view after_quality =
    "b5 #5 b9 #9 #11 b13, sus4, alt, add9, (no3), or / and a bass note";
constexpr std::string_view in_parentheses = "b5 #5 b9 #9 #11 b13, 9 11 13, add9, no3, sus4, maj7";
constexpr std::string_view one_seventh =
    "a chord has one seventh: write maj7, or (maj7) behind m, 6 or 9 and no 7 before it";

/// A symbol longer than any that is meant is not tried as two chords.
constexpr std::size_t longest_polychord = 40;

// clang-format off
struct MarkText { std::string_view text; Mark mark; };
// In capitals, small letters or both, where no other reading is possible.
constexpr std::array words = {
    MarkText{"minor", Mark::minor}, MarkText{"major", Mark::major}, MarkText{"min", Mark::minor},
    MarkText{"maj", Mark::major}, MarkText{"mi", Mark::minor}, MarkText{"ma", Mark::major},
    MarkText{"dim", Mark::diminished}, MarkText{"aug", Mark::augmented},
};
// As they stand: CM7 and Cm7 are two chords.
constexpr std::array marks = {
    MarkText{"m", Mark::minor}, MarkText{"-", Mark::minor}, MarkText{"−", Mark::minor},
    MarkText{"–", Mark::minor}, MarkText{"‑", Mark::minor}, MarkText{"M", Mark::major},
    MarkText{"△", Mark::major}, MarkText{"Δ", Mark::major}, MarkText{"∆", Mark::major},
    MarkText{"°", Mark::diminished}, MarkText{"º", Mark::diminished}, MarkText{"o", Mark::diminished},
    MarkText{"ø", Mark::half_diminished}, MarkText{"Ø", Mark::half_diminished}, MarkText{"+", Mark::augmented},
};
constexpr std::array<std::string_view, 3> triangles = {"△", "Δ", "∆"};
constexpr std::array<std::string_view, 3> major_words = {"major", "maj", "ma"};

constexpr std::array numbers = {
    Number{"6/9", six_nine}, Number{"69", six_nine}, Number{"6", 6}, Number{"7", 7}, Number{"9", 9},
    Number{"11", 11}, Number{"13", 13}, Number{"5", 5}, Number{"2", 2},
};
// What an accidental may stand before, and what an addition may name.
constexpr std::array altered_numbers = {
    Number{"13", 13}, Number{"11", 11}, Number{"9", 9}, Number{"6", 6}, Number{"5", 5}, Number{"4", 11},
};
constexpr std::array added_numbers = {
    Number{"13", 13}, Number{"11", 11}, Number{"9", 9}, Number{"6", 13}, Number{"4", 11}, Number{"2", 9},
};
constexpr std::array suspended_numbers = {
    Number{"13", 13}, Number{"9", 9}, Number{"7", 7}, Number{"6", 6},
};
// Behind a slash these are tones, no bass: C7/13, C7/b9.
constexpr std::array tensions = {Number{"13", 13}, Number{"11", 11}, Number{"9", 9}};
// clang-format on

std::optional<Alteration> alteration_of(int accidental, int number) {
    struct KnownAlteration {
        int accidental;
        int number;
        Alteration alteration;
    };
    constexpr std::array known = {
        KnownAlteration{-1, 5, A::flat_five},      KnownAlteration{1, 5, A::sharp_five},
        KnownAlteration{-1, 6, A::flat_six},       KnownAlteration{-1, 9, A::flat_nine},
        KnownAlteration{1, 9, A::sharp_nine},      KnownAlteration{1, 11, A::sharp_eleven},
        KnownAlteration{-1, 13, A::flat_thirteen}, KnownAlteration{0, 9, A::added_nine},
        KnownAlteration{0, 11, A::added_eleven},   KnownAlteration{0, 13, A::added_thirteen}};
    for (const auto& k : known) {
        if (k.accidental == accidental && k.number == number) return k.alteration;
    }
    return std::nullopt;
}

/// Reads one symbol from left to right.
class SymbolReader {
  public:
    explicit SymbolReader(std::string_view symbol) : in_(symbol) { parts_.symbol = symbol; }

    Chord read() {
        Chord chord;
        std::size_t length = 0;
        const auto root = read_spelling(in_.symbol(), length);
        if (!root) in_.fail(0, advice_for_root(in_.symbol()));
        if (const auto advice = advice_for_annotation(in_.symbol()); !advice.empty()) {
            in_.fail(length, advice);
        }
        in_.go_to(length);
        chord.root = *root;
        parts_.quality_at = length;
        read_word();
        read_number();
        read_rest();
        chord.quality = quality_of(parts_);
        chord.alterations = parts_.alterations;
        return in_.at_end() ? simplest(chord) : over_bass(simplest(chord));
    }

  private:
    [[nodiscard]] bool eat_any(const auto& texts) {
        return std::any_of(texts.begin(), texts.end(),
                           [&](std::string_view text) { return in_.eat(text); });
    }
    [[nodiscard]] bool eat_any_word(const auto& texts) {
        return std::any_of(texts.begin(), texts.end(),
                           [&](std::string_view text) { return in_.eat_word(text); });
    }

    void read_word() {
        // C+5 and C+11 sharpen a degree, C+ and C+7 augment; Co is diminished, C(omit3) is not.
        if (in_.sees("+5") || in_.sees("+11") || in_.sees_word("omit")) return;
        if (!read_mark()) return;
        const bool may_have = parts_.word == Mark::minor || parts_.word == Mark::diminished ||
                              parts_.word == Mark::augmented;
        if (may_have) read_major_seventh();
    }

    bool read_mark() {
        // Of Cmadd9 the m alone: no ma.
        const bool add = in_.sees_word("madd");
        for (const auto& [text, mark] : words) {
            if (add || !in_.eat_word(text)) continue;
            parts_.word = mark;
            return true;
        }
        for (const auto& [text, mark] : marks) {
            const auto start = in_.place();
            if (!in_.eat(text)) continue;
            parts_.word = mark;
            in_.go_to(start);
            if (eat_any(triangles)) {
                parts_.major_seventh = true;
                parts_.number = 7;
            } else {
                in_.eat(text);
            }
            return true;
        }
        return false;
    }

    /// The major seventh of a minor, diminished or augmented chord: mM7, m/maj7, m△, and in
    /// parentheses.
    void read_major_seventh() {
        const auto start = in_.place();
        const bool parenthesis = in_.eat("(");
        if (!parenthesis) in_.eat("/");
        const bool triangle = eat_any(triangles);
        if (triangle || eat_any_word(major_words) || in_.eat("M")) {
            const auto number = in_.eat_number(numbers);
            parts_.number = number.value_or(triangle ? 7 : 0);
            if (parts_.number >= 7 && parts_.number != six_nine) {
                if (parenthesis && !in_.eat(")")) in_.expect("the closing parenthesis");
                parts_.major_seventh = true;
                return;
            }
            if (!number) in_.fail(in_.place(), "the major seventh is written with its 7: m(maj7)");
        }
        parts_.number = 0;
        in_.go_to(start);
    }

    void read_number() {
        const auto start = in_.place();
        if (parts_.major_seventh && parts_.word != Mark::major) return;
        const auto number = in_.eat_number(numbers);
        if (!number) return;
        parts_.number = *number;
        if ((*number == 5 || *number == 2) && parts_.word != Mark::none) {
            in_.fail(start, *number == 5
                                ? "the fifth is in it anyway; an altered one is b5 or #5"
                                : "a bare 2 is written add9, or sus2 where the third goes");
        }
        const bool extended = *number >= 7 && *number != six_nine;
        if (parts_.word == Mark::major) parts_.major_seventh = extended;
        const bool may_have = parts_.word == Mark::none || parts_.word == Mark::minor;
        if (may_have && *number == 7 && !in_.sees_word("ma") && in_.eat("M")) {
            parts_.major_seventh = true;
        }
        // C6maj7 as C6(maj7); behind more than the number it stands in parentheses.
        if (in_.sees_word("ma")) (void)read_added_seventh();
    }

    void read_rest() {
        while (!in_.at_end()) {
            if (in_.sees("/")) {
                if (!tension_follows()) return;
                in_.eat("/");
                read_item(true);
            } else if (in_.eat("(")) {
                in_.eat_blanks();
                if (in_.sees(")")) in_.expect(in_parentheses);
                do {
                    read_item(true);
                    eat_separators();
                } while (!in_.sees(")") && !in_.at_end());
                if (!in_.eat(")")) in_.expect("the closing parenthesis");
            } else {
                read_item(in_.eat(","));
            }
        }
    }

    void eat_separators() {
        while (in_.eat(",") || in_.eat(" ") || in_.eat("/")) {
        }
    }

    /// Behind a slash: C7/13 and C7/b9 name tones, C7/Bb a bass.
    bool tension_follows() {
        const auto start = in_.place();
        in_.eat("/");
        (void)in_.eat_accidental();
        const bool follows = in_.eat_number(tensions).has_value();
        in_.go_to(start);
        return follows;
    }

    /// One alteration, addition, omission or suspension. `plain`: a bare 9, 11 or 13, and the major
    /// seventh, may stand here.
    void read_item(bool plain) {
        const auto start = in_.place();
        if (read_suspension() || read_omission() || read_addition()) return;
        if (in_.eat_word("alt")) {
            parts_.altered = true;
            return;
        }
        if (in_.eat_word("aug")) {
            parts_.bare = true;
            insert(A::sharp_five, start);
            return;
        }
        if (plain && (read_natural() || read_added_seventh())) return;
        if (plain && in_.sees("7")) {
            in_.fail(start, "a 7 stands without parentheses, right behind the root or the m");
        }
        read_alteration(plain);
    }

    void read_alteration(bool plain) {
        const auto start = in_.place();
        const bool plus = in_.sees("+");
        const int accidental = in_.eat_accidental();
        if (accidental == 0) {
            in_.expect(plain                        ? in_parentheses
                       : start == parts_.quality_at ? after_root
                                                    : after_quality);
        }
        parts_.bare = true;
        // A + on its own augments: C7+.
        insert(plus && !in_.sees_digit() ? A::sharp_five : read_altered(accidental), start);
    }

    /// The number behind an accidental.
    Alteration read_altered(int accidental) {
        const auto place = in_.place();
        if (const auto number = in_.eat_number(altered_numbers)) {
            if (const auto alteration = alteration_of(accidental, *number)) return *alteration;
        }
        in_.go_to(place);
        in_.expect(accidental < 0 ? "5, 6, 9 or 13" : "5, 9 or 11");
    }

    bool read_natural() {
        const auto start = in_.place();
        const auto number = in_.eat_number(added_numbers);
        if (number) insert(*alteration_of(0, *number), start);
        return number.has_value();
    }

    /// The major seventh behind a number: Cm9(maj7), C6(maj7).
    bool read_added_seventh() {
        const auto start = in_.place();
        const bool triangle = eat_any(triangles);
        if (!triangle && !eat_any_word(major_words) && !in_.eat("M")) return false;
        if (!in_.eat("7") && !triangle) {
            in_.fail(in_.place(), "the major seventh is written with its 7: maj7");
        }
        const bool another =
            parts_.number == 7 || parts_.major_seventh || parts_.word == Mark::half_diminished;
        if (another) in_.fail(start, one_seventh);
        parts_.major_seventh = true;
        switch (parts_.number) {
            case six_nine:
                parts_.number = 9;
                insert(A::added_thirteen, start);
                return true;
            case 6:
                insert(A::added_thirteen, start);
                break;
            case 5:
                insert(A::no_third, start);
                break;
            case 2:
                insert(A::added_nine, start);
                break;
            default:
                break;
        }
        if (parts_.number < 7) parts_.number = 7;
        return true;
    }

    bool read_suspension() {
        const auto start = in_.place();
        if (!in_.eat_word("sus")) return false;
        if (parts_.suspension != Suspension::none) in_.fail(start, "sus stands twice");
        parts_.suspension = Suspension::fourth;
        if (in_.eat("24") || in_.eat("2/4")) {
            insert(A::added_nine, start);
        } else if (in_.eat("2")) {
            parts_.suspension = Suspension::second;
        } else if (!in_.eat("4") && parts_.number == 0) {
            parts_.number = in_.eat_number(suspended_numbers).value_or(0);
        }
        if (in_.sees_digit()) in_.fail(in_.place(), known_suspensions);
        return true;
    }

    bool read_omission() {
        const auto start = in_.place();
        if (!in_.eat_word("no") && !in_.eat_word("omit")) return false;
        in_.eat_blanks();
        if (in_.eat("3")) {
            in_.eat("rd");
            insert(A::no_third, start);
        } else if (in_.eat("5")) {
            in_.eat("th");
            insert(A::no_fifth, start);
        } else {
            in_.expect("3 or 5");
        }
        return true;
    }

    bool read_addition() {
        const auto start = in_.place();
        if (in_.sees_word("add3") || in_.sees_word("add7") || !in_.eat_word("add")) return false;
        in_.eat_blanks();
        const int accidental = in_.eat_accidental();
        if (accidental != 0) {
            insert(read_altered(accidental), start);
        } else if (const auto number = in_.eat_number(added_numbers)) {
            insert(*alteration_of(0, *number), start);
        } else {
            in_.expect("2, 4, 6, 9, 11 or 13, also with b or #");
        }
        return true;
    }

    void insert(Alteration alteration, std::size_t start) {
        parts_.insert(alteration, start, in_.read_since(start));
    }

    /// With the bass note behind the slash, or as the upper chord of two.
    Chord over_bass(Chord chord) {
        const auto slash = in_.place();
        in_.eat("/");
        std::size_t length = 0;
        const auto bass = read_spelling(in_.rest(), length);
        if (!bass) {
            const auto advice = advice_for_bass(chord, in_.symbol(), slash);
            if (!advice.empty()) in_.fail(in_.place(), advice);
            in_.expect("a bass note, A to G", SymbolCursor::Advise::no);
        }
        const auto lower = in_.rest();
        in_.go_to(in_.place() + length);
        if (in_.at_end()) {
            chord.bass = *bass;
            return chord;
        }
        if (const auto whole = over_chord(chord, lower)) return *whole;
        in_.fail(in_.place(), fmt::format("nothing may follow the bass note, but {} does",
                                          text::quoted(in_.rest())));
    }

    /// Nothing where `text` is no chord of its own. Throws where the two make none.
    [[nodiscard]] std::optional<Chord> over_chord(const Chord& upper, std::string_view text) const {
        if (in_.symbol().size() > longest_polychord) return std::nullopt;
        std::optional<Chord> lower;
        try {
            lower = SymbolReader(text).read();
        } catch (const text::BadInput&) {
            return std::nullopt;
        }
        if (lower->bass) return std::nullopt;
        if (const auto whole = polychord(upper, *lower)) return whole;
        in_.fail(in_.place(), why_no_polychord(upper, *lower));
    }

    SymbolCursor in_;
    SymbolParts parts_;
};

}  // namespace

Chord read_chord(std::string_view symbol) { return SymbolReader(symbol).read(); }

}  // namespace compline::harmony
